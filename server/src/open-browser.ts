type Environment = Readonly<Record<string, string | undefined>>;

/** Whether a browser can be opened here: not on a build machine, and not on Linux without a screen. */
export function hasBrowser(env: Environment, platform: NodeJS.Platform): boolean {
  if (env.CI) return false;
  return platform !== 'linux' || Boolean(env.DISPLAY || env.WAYLAND_DISPLAY);
}

/** Opens the address in the person's browser; the printed address does as well where that fails. */
export async function openBrowser(address: string, env: Environment): Promise<void> {
  if (!hasBrowser(env, process.platform)) return;
  const { default: open } = await import('open');
  await open(address).then(
    (child) => child.on('error', () => undefined),
    () => undefined,
  );
}
