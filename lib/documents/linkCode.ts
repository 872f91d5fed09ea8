import { squares } from "./labelSymbol";

/** What a form shows once of a customer's link: the link, and as a QR code its size in modules, a bar, and its dark squares as an SVG path. */
export function linkShown(link: string): { link: string; code: string } {
  const { width, dark } = squares(link);
  return {
    link,
    code: `${width}|${dark.map(({ x, y, width: run }) => `M${x} ${y}h${run}v1h-${run}z`).join("")}`,
  };
}
