/** The job that composes a contact sheet out of thumbnails. */
import { loadCodec } from "../../scans/codec.ts";
import { encodePicture, type EncodeSpec, type PictureMetadata } from "../../scans/output/encode.ts";
import { writePicture } from "../render/render-frame.ts";
import { type ContactCell, contactLayout, contactOverlay, GROUND } from "./contact-sheet.ts";

export interface ComposeContact {
  readonly title: string;
  /** One line under the title. */
  readonly subtitle: string;
  readonly cells: readonly ContactCell[];
  /** Absolute path. */
  readonly path: string;
  /** What may be replaced, and the folder's mark; see WriteOptions. */
  readonly replace: boolean | string;
  readonly folder: string;
  readonly spec: EncodeSpec;
  readonly metadata: PictureMetadata;
}

export interface ContactSheet {
  readonly width: number;
  readonly height: number;
  readonly bytes: number;
  readonly sha256: string;
}

/** Draws a contact sheet out of thumbnails and writes it. */
export async function composeContact(request: ComposeContact): Promise<ContactSheet> {
  const layout = contactLayout(request.cells);
  const { width, height } = layout;
  const data = new Uint8Array(width * height * 3);
  for (let i = 0; i < data.length; i += 3) data.set(GROUND, i);
  request.cells.forEach(({ picture }, k) => {
    if (!picture) return;
    const { left, top } = layout.pictures[k];
    for (let y = 0; y < picture.height; y++)
      for (let x = 0; x < picture.width; x++)
        for (let c = 0; c < 3; c++)
          data[((top + y) * width + left + x) * 3 + c] =
            picture.data[(y * picture.width + x) * picture.channels + (picture.channels === 3 ? c : 0)];
  });
  const openPicture = await loadCodec();
  const overlay = Buffer.from(contactOverlay(request.title, request.subtitle, request.cells, layout));
  const lettered = await openPicture(data, { raw: { width, height, channels: 3 } })
    .composite([{ input: overlay, left: 0, top: 0 }])
    .removeAlpha()
    .raw()
    .toBuffer();
  const sheet = new Uint8Array(lettered.buffer, lettered.byteOffset, lettered.length);
  const bytes = await encodePicture({ width, height, channels: 3, data: sheet }, request.spec, request.metadata);
  const { size, sha256 } = await writePicture(request, bytes);
  return { width, height, bytes: size, sha256 };
}
