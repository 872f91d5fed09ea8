import { squares } from "@/lib/documents/labelSymbol";

/** A text as a QR code: dark on light in either theme, since readers want it so (ISO/IEC 18004). */
export function QrCode({ text, name }: { text: string; name: string }) {
  const { width, height, dark } = squares(text);
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={name}
      shapeRendering="crispEdges"
      className="size-[220px] border border-rule"
    >
      <rect width={width} height={height} fill="#ffffff" />
      {dark.map((one) => (
        <rect key={`${one.x} ${one.y}`} {...one} fill="#000000" />
      ))}
    </svg>
  );
}
