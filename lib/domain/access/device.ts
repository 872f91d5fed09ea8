/** What a browser says of itself, most telling mark first: many name others besides themselves. RFC 9110, 10.1.5. */
const BROWSERS: readonly (readonly [mark: RegExp, name: string])[] = [
  [/\bEdg(?:e|A|iOS)?\//, "Edge"],
  [/\bOPR\/|\bOpera\b/, "Opera"],
  [/\bSamsungBrowser\//, "Samsung Internet"],
  [/\bVivaldi\//, "Vivaldi"],
  [/\b(?:Firefox|FxiOS)\//, "Firefox"],
  [/\b(?:Chrome|CriOS|HeadlessChrome)\//, "Chrome"],
  [/\bVersion\/[\d.]+.*\bSafari\//, "Safari"],
];

const SYSTEMS: readonly (readonly [mark: RegExp, name: string])[] = [
  [/\bWindows NT\b/, "Windows"],
  [/\biPad\b/, "iPad"],
  [/\biPhone\b/, "iPhone"],
  [/\bAndroid\b/, "Android"],
  [/\bCrOS\b/, "ChromeOS"],
  [/\bMacintosh\b|\bMac OS X\b/, "Mac"],
  [/\bLinux\b|\bX11\b/, "Linux"],
];

/**
 * A device in plain words, from the User-Agent header it sent: "Firefox on Windows". It is what the device claims, so it is
 * for people to recognise their own and for nothing else. Never throws; what is not known is said so.
 */
export function deviceWords(agent: string): string {
  const read = agent.slice(0, 300);
  const nameIn = (marks: typeof BROWSERS) => marks.find(([mark]) => mark.test(read))?.[1];
  const browser = nameIn(BROWSERS);
  const system = nameIn(SYSTEMS);
  if (browser && system) return `${browser} on ${system}`;
  if (browser) return browser;
  return system ? `A browser on ${system}` : "An unknown browser";
}
