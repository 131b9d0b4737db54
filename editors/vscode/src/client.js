// Starts `setwright lsp` and hands it the settings. Everything else is the server's.

const vscode = require('vscode');
const { LanguageClient, TransportKind } = require('vscode-languageclient/node');

const SHOW = 'setwright.show';

let client;

/** Whose loads stand beside the lines, and of which week: as the settings say. */
function shown() {
  const settings = vscode.workspace.getConfiguration('setwright.shown');
  return { athlete: settings.get('athlete') || null, week: settings.get('week') || null };
}

function program() {
  return vscode.workspace.getConfiguration('setwright').get('path') || 'setwright';
}

async function start() {
  const command = program();
  const run = { command, args: ['lsp'], transport: TransportKind.stdio };
  client = new LanguageClient('setwright', 'Setwright', { run, debug: run }, {
    documentSelector: [{ language: 'setwright' }],
    initializationOptions: { shown: shown() },
    // The section is sent by `workspace/didChangeConfiguration` whenever it changes.
    synchronize: { configurationSection: 'setwright' },
  });
  try {
    await client.start();
  } catch (error) {
    const answer = await vscode.window.showErrorMessage(
      `Setwright: \`${command}\` could not be started (${error.message}). Colours work without it.`,
      'Set its path',
    );
    if (answer) {
      await vscode.commands.executeCommand('workbench.action.openSettings', 'setwright.path');
    }
  }
}

async function stop() {
  const old = client;
  client = undefined;
  if (old && old.isRunning()) await old.stop();
}

/** Another athlete or week until the window is closed. Escape changes nothing. */
async function choose() {
  if (!client || !client.isRunning()) return;
  const now = shown();
  const athlete = await vscode.window.showInputBox({
    title: 'Whose loads stand beside the lines?',
    prompt: 'The name as in the file; empty for the first athlete',
    value: now.athlete || '',
  });
  if (athlete === undefined) return;
  const week = await vscode.window.showInputBox({
    title: 'Of which week?',
    prompt: 'A number; empty for the first week',
    value: now.week ? String(now.week) : '',
    validateInput: text => (/^\s*[1-9]?[0-9]*\s*$/.test(text) ? undefined : 'a number, such as 4'),
  });
  if (week === undefined) return;
  await client.sendRequest('workspace/executeCommand', {
    command: SHOW,
    arguments: [{ athlete: athlete.trim() || null, week: Number(week) || null }],
  });
}

async function activate(context) {
  context.subscriptions.push(
    vscode.commands.registerCommand('setwright.choose', choose),
    vscode.commands.registerCommand('setwright.restart', async () => {
      await stop();
      await start();
    }),
    vscode.workspace.onDidChangeConfiguration(async change => {
      if (!change.affectsConfiguration('setwright.path')) return;
      await stop();
      await start();
    }),
  );
  await start();
}

module.exports = { activate, deactivate: stop };
