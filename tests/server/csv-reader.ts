/**
 * Reads CSV by the grammar of RFC 4180 section 2, and nothing more forgiving: CRLF between records, quotation
 * marks doubled inside quotation marks, no quotation mark and no line end outside them. Throws on anything else.
 */
export function readCsv(text: string): string[][] {
  const records: string[][] = [[]];
  const field = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|$)/y;
  while (field.lastIndex < text.length) {
    const match = field.exec(text);
    if (!match) throw new SyntaxError('not CSV after RFC 4180');
    records.at(-1)!.push(match[1] === undefined ? match[2]! : match[1].replaceAll('""', '"'));
    if (match[3] === '\r\n') records.push([]);
  }
  // The line end of the last record is optional; it begins no further one.
  if (records.at(-1)!.length === 0) records.pop();
  return records;
}
