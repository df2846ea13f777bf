import { unescaped } from "./svg-texts.ts";

/** What a reader of a page reads: tags, style, script and drawings taken out, spaces made one. */
export function htmlText(html: string): string {
  const body = html
    .replaceAll(/<(style|script|svg)[\s>][\s\S]*?<\/\1>/g, " ")
    .replaceAll(/<[^>]+>/g, " ");
  return unescaped(body)
    .replaceAll(/&#x27;/g, "'")
    .replaceAll(/[\s\u00a0]+/g, " ");
}
