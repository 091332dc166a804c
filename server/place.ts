/** Where the package lies on disk, whether it runs from source or from `dist`. */
import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds `package.json`, `views` and `fixtures`. */
export function packageFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) {
    const above = dirname(folder);
    if (above === folder) throw new Error('kentledge is not inside its package: package.json was not found');
    folder = above;
  }
  return folder;
}

/** The platform's usual folder for a program's data, where `--data` names none. */
export function usualDataFolder(env: NodeJS.ProcessEnv = process.env, platform = process.platform): string {
  if (platform === 'win32') return join(env.LOCALAPPDATA ?? join(homedir(), 'AppData', 'Local'), 'kentledge');
  if (platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'kentledge');
  return join(env.XDG_DATA_HOME || join(homedir(), '.local', 'share'), 'kentledge');
}
