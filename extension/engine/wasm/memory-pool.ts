/** Memories for kernels: kept from one picture to the next, because each is as costly as the rows it holds. */

/** A kernel, called with addresses and numbers. */
export type Pass = (...numbers: number[]) => void;

/** A memory with the kernels that work in it. One serves one picture at a time. */
export interface WasmArena {
  readonly memory: WebAssembly.Memory;
  /** The kernel of this name, compiled when it is first asked for. */
  kernel(name: string, bytes: () => Uint8Array): Pass;
  /** Frees the room for another picture. */
  release(): void;
}

const PAGE = 65536;

const idle: WasmArena[] = [];
/** Compiled once a thread; each room only makes an instance of it. */
const modules = new Map<string, WebAssembly.Module>();

/** A room that is free, or a new one, with space for `bytes`; what it holds at first may be anything. */
export function enterArena(bytes: number): WasmArena {
  const pages = Math.ceil(bytes / PAGE);
  const arena = idle.pop() ?? newArena(pages);
  const missing = pages - arena.memory.buffer.byteLength / PAGE;
  if (missing > 0) arena.memory.grow(missing);
  return arena;
}

function newArena(pages: number): WasmArena {
  const memory = new WebAssembly.Memory({ initial: pages });
  const kernels = new Map<string, Pass>();
  const arena: WasmArena = {
    memory,
    kernel(name, bytes) {
      const known = kernels.get(name);
      if (known) return known;
      const module = modules.get(name) ?? new WebAssembly.Module(bytes() as Uint8Array<ArrayBuffer>);
      modules.set(name, module);
      const kernel = new WebAssembly.Instance(module, { host: { memory } }).exports.run as Pass;
      kernels.set(name, kernel);
      return kernel;
    },
    release: () => void idle.push(arena),
  };
  return arena;
}

/** Hands out places in a memory, in bytes, each with at least a vector of slack behind it. */
export class Allocator {
  /** First byte that is free. */
  end = 16;

  take(bytes: number): number {
    const at = this.end;
    this.end = (this.end + bytes + 31) & ~15;
    return at;
  }
}
