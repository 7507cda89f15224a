/** What is done with a frame as a whole, from the bar and from menus: copied, exported, shown in the text. */
import { reasonOf } from "../reason.ts";
import { t } from "../translate.ts";
import { refuse } from "./picture/gestures.ts";
import type { Session } from "./session.ts";

/** Writing a frame's files may take minutes. */
const EXPORT_LIMIT = 1_800_000;
/** People take their time over a list of frames. */
const COPY_LIMIT = 600_000;

/** Whether the frame's values can be copied to others, and its outputs written. */
export function frameAbilities(session: Session): { readonly copies: boolean; readonly exports: boolean } {
  const { roll } = session.store.get();
  const frame = session.frame();
  const usable = frame !== undefined && roll !== undefined && !roll.stale && roll.trusted;
  return { copies: usable && roll.frames.length > 1, exports: usable && !frame.skip };
}

export const copyFrame = (session: Session): void =>
  void ask(session, "copy", COPY_LIMIT, (frames) => t("Copied to frames: {0}", frames.join(", ")));

export const exportFrame = (session: Session): void =>
  void ask(session, "export", EXPORT_LIMIT, (files) => t("Files written: {0}", files.length));

export function showInText(session: Session): void {
  const frame = session.frame();
  if (frame)
    session.client.request("reveal", { frame: frame.id }).catch((error: unknown) => refuse(session, reasonOf(error)));
}

/** Takes the picture as it is as the reference state, and compares with it. */
export function setReference(session: Session): void {
  const { compare } = session.store.get().ui;
  session.store.set({ kept: session.look() });
  session.ui({ against: "kept", compare: compare === "off" ? "wipe" : compare });
  session.announce(t("This is the reference state for comparison"));
}

async function ask(
  session: Session,
  name: "copy" | "export",
  limit: number,
  describe: (list: readonly string[]) => string,
): Promise<void> {
  const frame = session.frame();
  if (!frame) return;
  try {
    const answer = await session.client.request(name, { frame: frame.id }, { limit });
    const list = "files" in answer ? answer.files : answer.frames;
    if (list.length) session.announce(describe(list));
  } catch (error) {
    refuse(session, reasonOf(error));
  }
}
