import { printedCharacters } from '../contract/papers.ts';
import { printedRanges } from '../papers/ink/fonts.ts';
import { responses } from '../responses.ts';
import type { App } from '../service.ts';

/** GET /api/papers/characters: what the fonts of the papers have, so that a page says what they cannot print. */
export function printedCharactersRoute(app: App): void {
  app.get(
    '/api/papers/characters',
    {
      schema: {
        tags: ['papers'],
        summary: 'Which characters the papers can print; codes stand for all others',
        response: responses({ 200: printedCharacters }, []),
      },
    },
    async () => ({ ranges: printedRanges().map(([first, last]): [number, number] => [first, last]) }),
  );
}
