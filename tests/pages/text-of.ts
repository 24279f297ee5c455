/** The words of our own escaped markup, tags as spaces; enough for tests, no parser of anybody's HTML. */
export function textOf(markup: string): string {
  return markup
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll('&#x27;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
    .replaceAll(/[\s\u00A0]+/g, ' ')
    .trim();
}
