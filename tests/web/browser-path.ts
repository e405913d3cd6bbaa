/** Arguments of a browser that shows nothing and asks nothing of the network. */
export const quiet = ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--no-first-run'];

/**
 * The browser named by CHROMIUM_PATH, else the one from npm, which unpacks itself to the temporary folder. VERCEL=1 makes
 * it unpack its own libraries and fonts too.
 */
export async function browserPath(): Promise<string> {
  if (process.env.CHROMIUM_PATH !== undefined) return process.env.CHROMIUM_PATH;
  process.env.VERCEL ??= '1';
  return (await import('@sparticuz/chromium')).default.executablePath();
}
