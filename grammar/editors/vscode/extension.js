// Starts `seatwright editor` for the files of the language, and stops it.
const { workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

exports.activate = () => {
  const settings = workspace.getConfiguration("seatwright");
  client = new LanguageClient(
    "seatwright",
    "Seatwright",
    { command: settings.get("command"), args: ["editor"] },
    {
      documentSelector: [{ language: "seatwright" }],
      initializationOptions: { inlay: settings.get("inlay") },
      synchronize: { configurationSection: "seatwright" },
    },
  );
  return client.start();
};

exports.deactivate = () => client && client.stop();
