/** Letters that Unicode does not take apart into a plain letter and a mark. */
const spelled: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ı: 'i',
};

/** Names that Windows keeps for devices, whatever comes after a dot. */
const device = /^(con|prn|aux|nul|com\d|lpt\d)$/;

const longest = 48;

/**
 * Makes a name safe as part of a path and of an address: small letters, digits and single hyphens, at most 48
 * characters, never empty, never a device name. Names without a single letter or digit of the Latin alphabet
 * give the fallback.
 */
export function slugOf(name: string, fallback: string): string {
  const plain = name
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[ßæœøłđðþı]/g, (letter) => spelled[letter] ?? letter)
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, longest)
    .replaceAll(/^-+|-+$/g, '');
  if (plain === '') return fallback;
  return device.test(plain) ? `${plain}-1` : plain;
}
