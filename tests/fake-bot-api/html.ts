/**
 * The HTML of messages as the public Bot API documentation describes it under "HTML style": which tags there are, that
 * they close in order, and that `<`, `>` and `&` stand only in tags and entities.
 */
const TAGS = [
  'b',
  'strong',
  'i',
  'em',
  'u',
  'ins',
  's',
  'strike',
  'del',
  'code',
  'pre',
  'blockquote',
  'tg-spoiler',
  'a',
];
const ENTITIES: Record<string, string> = { lt: '<', gt: '>', amp: '&', quot: '"' };
const TOKEN = /<(\/?)([a-z-]+)((?:\s+[a-z-]+(?:="[^"<>]*")?)*)>|&(#?\w+);|[^<&>]+|[<&>]/gu;

/** The text that a person sees, or what is wrong with the marks. */
export function plainText(html: string): { text: string } | { wrong: string } {
  const open: string[] = [];
  let text = '';
  for (const [token, slash, tag, , entity] of html.matchAll(TOKEN)) {
    if (tag !== undefined) {
      if (!TAGS.includes(tag)) return { wrong: `Unsupported start tag "${tag}"` };
      if (slash === '/') {
        if (open.pop() !== tag) return { wrong: `Unmatched end tag "${tag}"` };
      } else open.push(tag);
    } else if (entity !== undefined) {
      const character = ENTITIES[entity];
      if (character === undefined) return { wrong: `Unsupported entity "${entity}"` };
      text += character;
    } else if (['<', '>', '&'].includes(token)) return { wrong: `Unescaped "${token}"` };
    else text += token;
  }
  return open.length > 0 ? { wrong: `Can't find end tag for "${open.at(-1) ?? ''}"` } : { text };
}
