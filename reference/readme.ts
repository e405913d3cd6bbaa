const start = '<!-- reference table: npm run reference -- --readme -->';
const end = '<!-- end of reference table -->';

function marks(readme: string): readonly [number, number] {
  const from = readme.indexOf(start);
  const to = readme.indexOf(end);
  if (from < 0 || to < from) throw new Error('README.md has lost the marks of its reference table');
  return [from + start.length, to];
}

/** The table the README shows now. */
export function betweenMarks(readme: string): string {
  return readme.slice(...marks(readme)).trim();
}

/** The README with a fresh table between its marks. */
export function withTable(readme: string, table: string): string {
  const [from, to] = marks(readme);
  return `${readme.slice(0, from)}\n\n${table}\n\n${readme.slice(to)}`;
}
