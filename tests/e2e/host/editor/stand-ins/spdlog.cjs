// Takes the place of the compiled @vscode/spdlog: the same calls, writing the same kind of lines.
// Without any, the server runs but writes no logs and every extension's output channel stays empty.
const fs = require("node:fs");
const path = require("node:path");

const NAMES = ["trace", "debug", "info", "warning", "error", "critical"];
let initialLevel = 2;

class Logger {
  constructor(file) {
    this.file = file;
    this.level = initialLevel;
    this.plain = false;
  }
  write(level, message) {
    if (level < this.level || !this.file) return;
    const time = new Date().toISOString().replace("T", " ").replace("Z", "");
    const line = this.plain ? message : `${time} [${NAMES[level]}] ${message}\n`;
    try {
      fs.appendFileSync(this.file, line);
    } catch {
      this.file = undefined; // the profile is gone: the server is being taken down
    }
  }
  trace(message) {
    this.write(0, message);
  }
  debug(message) {
    this.write(1, message);
  }
  info(message) {
    this.write(2, message);
  }
  warn(message) {
    this.write(3, message);
  }
  error(message) {
    this.write(4, message);
  }
  critical(message) {
    this.write(5, message);
  }
  getLevel() {
    return this.level;
  }
  setLevel(level) {
    this.level = level;
  }
  clearFormatters() {
    this.plain = true;
  }
  setPattern() {}
  flush() {}
  drop() {
    this.file = undefined;
  }
}

async function createLogger(_name, file) {
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.closeSync(fs.openSync(file, "a"));
  return new Logger(file);
}

// One by one: the server imports these by name, and Node finds the names of a CommonJS module only in this form.
exports.version = 0;
exports.Logger = Logger;
exports.createRotatingLogger = createLogger;
exports.createAsyncRotatingLogger = createLogger;
exports.setFlushOn = () => {};
exports.setLevel = (level) => {
  initialLevel = level;
};
