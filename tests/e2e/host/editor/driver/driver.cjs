// A test-only extension: answers POST / on localhost by running a function of the test in the extension host.
// Body {source, args}; answer {value} or {error}. Server.exec in ../server.ts is the other end.
const { renameSync, writeFileSync } = require("node:fs");
const { createServer } = require("node:http");
const vscode = require("vscode");

exports.activate = (context) => {
  const { E2E_DRIVER_PORT_FILE: portFile, E2E_DRIVER_TOKEN: token } = process.env;
  if (!portFile || !token) return;
  const server = createServer(async (request, response) => {
    if (request.headers["x-token"] !== token) return response.writeHead(403).end();
    let answer;
    try {
      let body = "";
      for await (const chunk of request.setEncoding("utf8")) body += chunk;
      const { source, args } = JSON.parse(body);
      // oxlint-disable-next-line typescript/no-implied-eval -- running a test's text is what this is for
      const run = new Function("vscode", "require", `return (${source});`)(vscode, require);
      answer = { value: await run(vscode, ...args) };
    } catch (error) {
      answer = { error: String((error && error.stack) || error) };
    }
    response.end(JSON.stringify(answer));
  });
  server.listen(0, "127.0.0.1", () => {
    // Renamed into place, so that a reader never meets a half-written file.
    writeFileSync(`${portFile}.part`, String(server.address().port));
    renameSync(`${portFile}.part`, portFile);
  });
  context.subscriptions.push({ dispose: () => server.close() });
};
