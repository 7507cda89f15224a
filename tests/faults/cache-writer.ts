/** Writes proxies into a cache without end, until it is killed. Arguments: folder, number of the writer, bytes at most. */
import { folderCache } from "../../extension/scans/files/cache.ts";
import { proxyBytes } from "../../extension/scans/proxy.ts";

const [folder = "", writer = "", most = ""] = process.argv.slice(2);
const cache = folderCache(folder, Number(most));
const scan = {
  width: 800,
  height: 600,
  channels: 3,
  data: new Uint16Array(800 * 600 * 3),
  black: 0,
  scale: 1,
} as const;
for (let k = 0; ; k++) {
  scan.data.fill(k & 0xffff);
  const bytes = proxyBytes({ scan, info: { source: "raw", width: 800, height: 600, bits: 14 } as never, warnings: [] });
  await cache.write(`w${writer}-${k % 12}`, bytes);
  if (k === 0) process.stdout.write("begun\n");
}
