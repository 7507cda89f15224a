/** What the decoders and codecs of a worker are, found by loading them. */
import { codecVersions } from "../../scans/codec.ts";
import { errorText } from "../../scans/files/system-errors.ts";
import { loadColourEngine } from "../../scans/icc/colour-engine.ts";
import { loadLibRaw } from "../../scans/raw/libraw.ts";

export interface AboutPart {
  readonly version?: string;
  /** Why it cannot be loaded. */
  readonly problem?: string;
}

export interface AboutCodecs {
  readonly parts: Readonly<Record<string, AboutPart>>;
  /** Kinds of files that are read. */
  readonly reads: readonly string[];
  /** Types of files that are written. */
  readonly writes: readonly string[];
}

export async function aboutCodecs(_request: object): Promise<AboutCodecs> {
  const parts: Record<string, AboutPart> = {};
  const load = async (name: string, how: () => Promise<string | undefined>): Promise<void> => {
    parts[name] = await how().then(
      (version) => ({ version }),
      (error: unknown) => ({ problem: errorText(error) }),
    );
  };
  await load("images", async () => {
    const { build, versions } = await codecVersions();
    const named = ["sharp", "vips", "mozjpeg", "tiff", "png", "webp", "aom", "lcms"].filter((name) => versions[name]);
    return `${build} build, ${named.map((name) => `${name} ${versions[name]}`).join(", ")}`;
  });
  await load("raw decoder", async () => {
    await loadLibRaw();
    return "LibRaw, WebAssembly";
  });
  await load("printer profiles", async () => {
    await loadColourEngine();
    return "Little CMS 2.16, WebAssembly";
  });
  return { parts, reads: ["camera raw files", "DNG", "TIFF", "JPEG"], writes: ["tiff", "jpeg", "png", "webp", "avif"] };
}
