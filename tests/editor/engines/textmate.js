// What VS Code's own engine makes of files: {grammar, files: {name: text}} in, each line's tokens by name out.
const fs = require("fs");
const path = require("path");
const modules = process.argv[2];
const textmate = require(path.join(modules, "vscode-textmate"));
const oniguruma = require(path.join(modules, "vscode-oniguruma"));

(async () => {
  const { grammar, files } = JSON.parse(fs.readFileSync(0, "utf8"));
  await oniguruma.loadWASM(fs.readFileSync(path.join(modules, "vscode-oniguruma/release/onig.wasm")).buffer);
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => textmate.parseRawGrammar(fs.readFileSync(grammar, "utf8"), "seatwright.json"),
  });
  const loaded = await registry.loadGrammar("source.seatwright");
  const out = {};
  for (const [name, text] of Object.entries(files)) {
    let state = textmate.INITIAL;
    out[name] = text.split("\n").map((line) => {
      const read = loaded.tokenizeLine(line, state);
      state = read.ruleStack;
      return read.tokens.map((token) => [token.startIndex, token.endIndex, token.scopes.at(-1)]);
    });
  }
  process.stdout.write(JSON.stringify(out));
})();
