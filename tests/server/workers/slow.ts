/** Keeps a thread busy for as long as it is told, as a heavy calculation would. */
export default function slow({ busy_ms }: { readonly busy_ms: number }): string {
  const until = performance.now() + busy_ms;
  while (performance.now() < until);
  return 'done';
}
