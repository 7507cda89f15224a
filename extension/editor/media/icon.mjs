// Draws icon.png (256 × 256) from icon.svg. Usage: node extension/editor/media/icon.mjs
import { fileURLToPath } from "node:url";
import sharp from "sharp";

const beside = (name) => fileURLToPath(new URL(name, import.meta.url));
await sharp(beside("icon.svg"), { density: 288 })
  .resize(256, 256)
  .png({ compressionLevel: 9 })
  .toFile(beside("icon.png"));
