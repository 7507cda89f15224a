import { afterEach, describe, expect, it } from "vitest";
import { JobError } from "../../../extension/failure.ts";
import { createRpcClient } from "../../../extension/rpc.ts";
import type { PreviewRequests } from "../../../extension/messages.ts";
import { reasonOf } from "../../../webview/reason.ts";
import { useTranslations } from "../../../webview/translate.ts";

describe("why a request came to nothing", () => {
  afterEach(() => useTranslations(() => undefined));

  it("is what the host says, in the words that it has chosen", () => {
    useTranslations(() => "«»");
    expect(reasonOf(new JobError({ code: "no-frame", message: "Es gibt kein Bild 07 mehr." }))).toBe(
      "Es gibt kein Bild 07 mehr.",
    );
    expect(reasonOf("broken")).toBe("broken");
  });

  it("is said by the panel where the host says nothing in time", async () => {
    useTranslations((english) => (english === "No answer came in time. Try again." ? "«»" : undefined));
    const silent = createRpcClient<PreviewRequests>(() => undefined);
    const refused: unknown = await silent.request("ready", {}, { limit: 1 }).catch((error: unknown) => error);
    expect(reasonOf(refused)).toBe("«»");
  });
});
