import type * as contract from '../../server/contract/person.ts';

/** The most letters a name may have, and the headers it goes in, as the service has them. */
export const longestPerson: typeof contract.longestPerson = 40;
const personHeader: typeof contract.personHeader = 'slotwatt-person';

const key = 'slotwatt-person';

/** Where the browser refuses storage, the name lasts as long as the page. */
let here = '';

/** Who works here, as it was said in this browser; empty where nobody said. */
export function person(): string {
  try {
    return (localStorage.getItem(key) ?? here).slice(0, longestPerson);
  } catch {
    return here;
  }
}

/** Remembers who works here, in this browser only; an empty name forgets it. */
export function rememberPerson(name: string): void {
  here = name.replaceAll(/\p{C}/gu, '').trim().slice(0, longestPerson);
  try {
    localStorage.setItem(key, here);
  } catch {
    // Private windows refuse storage; the name lasts as long as the page.
  }
}

/** The header that says who asks; none where nobody said. */
export function personHeaders(): Record<string, string> {
  const name = person();
  return name === '' ? {} : { [personHeader]: encodeURIComponent(name) };
}
