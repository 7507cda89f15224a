// Takes the place of the compiled @vscode/native-watchdog: ends the extension host when its server is gone.
exports.start = (pid) => {
  setInterval(() => {
    try {
      process.kill(pid, 0);
    } catch {
      process.exit(87);
    }
  }, 1000).unref();
};
exports.exit = (code) => process.exit(code || 0);
