import type { Access } from "./recipe";

const lower = (text: string) => (text[0] ?? "").toLowerCase() + text.slice(1);

/** How an access's name turns into what the hand does: the end of the name, the word before what is left of it. */
const FORMS: readonly (readonly [RegExp, open: string, close: string])[] = [
  [/ off$/i, "Take off: ", "Put back: "],
  [/ out$/i, "Take out: ", "Put back: "],
  [/ turned left$/i, "Turn left: ", "Turn back: "],
  [/ turned right$/i, "Turn right: ", "Turn back: "],
  [/ tilted left$/i, "Tilt left: ", "Tilt back: "],
  [/ tilted right$/i, "Tilt right: ", "Tilt back: "],
  [/ turned$/i, "Turn: ", "Turn back: "],
  [/ tilted$/i, "Tilt: ", "Tilt back: "],
];

/**
 * What the hand does to open and to close an access, as its steps say it: the package's own words, else made of the name: “Tank
 * off” is “Take off: tank” and “Put back: tank”. A name of no known form is opened and closed. The forms are English; other
 * languages write their own words in the package.
 */
export function accessTitles(access: Pick<Access, "name" | "openAs" | "closeAs">): {
  open: string;
  close: string;
} {
  const { name } = access;
  const found = FORMS.find(([end]) => end.test(name));
  const what = found ? lower(name.replace(found[0], "")) : name;
  const [open, close] = found ? [found[1], found[2]] : ["Open: ", "Close: "];
  return { open: access.openAs || `${open}${what}`, close: access.closeAs || `${close}${what}` };
}
