// The kinds of VSIX there are. A platform's own carries sharp as native code; the universal one as WebAssembly.

const glibc = (cpu) => ({ os: "linux", cpu, libc: "glibc", wasm: true });
const musl = (cpu) => ({ os: "linux", cpu, libc: "musl", wasm: true });

/**
 * VS Code's target names → what npm has to install for them. On Linux the WebAssembly build goes with the native one:
 * a desktop editor's Electron cannot be trusted with native sharp there, a remote or container host can.
 */
export const targets = {
  universal: { wasm: true },
  "linux-x64": glibc("x64"),
  "linux-arm64": glibc("arm64"),
  "alpine-x64": musl("x64"),
  "alpine-arm64": musl("arm64"),
  "darwin-x64": { os: "darwin", cpu: "x64" },
  "darwin-arm64": { os: "darwin", cpu: "arm64" },
  "win32-x64": { os: "win32", cpu: "x64" },
  "win32-arm64": { os: "win32", cpu: "arm64" },
};

/** The target of the machine this runs on. */
export function hostTarget() {
  const isMusl = process.platform === "linux" && !process.report.getReport().header.glibcVersionRuntime;
  return `${isMusl ? "alpine" : process.platform}-${process.arch}`;
}
