type Child = Node | string;

/** An element with its attributes and what is in it; an attribute that is false is left out. */
export function element<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string | boolean>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Name] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes))
    if (value !== false) made.setAttribute(key, value === true ? '' : value);
  made.append(...children);
  return made;
}

const svg = 'http://www.w3.org/2000/svg';

/** An element of a drawing. */
export function drawn(
  name: string,
  attributes: Readonly<Record<string, string | number>>,
  ...children: readonly Child[]
): SVGElement {
  const made = document.createElementNS(svg, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  made.append(...children);
  return made;
}
