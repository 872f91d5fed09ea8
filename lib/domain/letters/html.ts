const ESCAPED: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};
const escaped = (text: string): string => text.replace(/[&<>"']/gu, (mark) => ESCAPED[mark] ?? mark);

/** An address as far as it reaches: what ends a sentence is not of it. */
const ADDRESS = /(https?:\/\/[^\s<>"']*[^\s<>"'.,;:!?)])/u;

const linked = (line: string): string =>
  line
    .split(ADDRESS)
    .map((piece, at) =>
      at % 2 === 0
        ? escaped(piece)
        : `<a href="${escaped(piece)}" style="color:#8a5f12;text-underline-offset:3px">${escaped(piece)}</a>`,
    )
    .join("");

/** The papers' look (lib/documents/look.ts), in a sans-serif that every machine has. */
const FONT = "font:16px/1.5 'Atkinson Hyperlegible Next',Verdana,Arial,sans-serif";
const RULED = "border-top:1px solid #ddd6c8;padding-top:12px;color:#5a5f5e;";

/**
 * The HTML twin of a letter: the same words and no others, escaped, addresses made links, under the papers' ink line. The
 * last paragraph, which says who writes, is ruled off. Nothing in it is fetched from anywhere.
 */
export function letterHtml(text: string, language: string): string {
  const paragraphs = text.trim().split(/\n{2,}/u);
  const body = paragraphs.map((paragraph, at) => {
    const last = at === paragraphs.length - 1 && at > 0;
    const lines = paragraph.split("\n").map(linked).join("<br>\n");
    return `<p style="margin:0 0 16px;overflow-wrap:anywhere;${last ? RULED : ""}">${lines}</p>`;
  });
  return [
    "<!doctype html>",
    `<html lang="${escaped(language)}">`,
    '<head><meta charset="utf-8"><meta name="viewport" content="width=device-width"></head>',
    '<body style="margin:0;padding:16px;background:#f6f2e8">',
    `<div style="max-width:600px;margin:0 auto;padding:24px 20px 8px;background:#fcfaf4;border-top:2px solid #1c2022;color:#1c2022;${FONT}">`,
    ...body,
    "</div>",
    "</body>",
    "</html>",
  ].join("\n");
}
