import sharp from "sharp";

/** A photo as a phone would send it: lying on its side, left half red, with who took it and where in its EXIF. */
export function phonePhoto(width = 600, height = 200): Promise<Buffer> {
  const half = Math.floor(width / 2);
  return sharp({ create: { width, height, channels: 3, background: "#1040c0" } })
    .composite([
      { input: { create: { width: half, height, channels: 3, background: "#d01010" } }, left: 0, top: 0 },
    ])
    .withExif({
      IFD0: { Copyright: "Oda Fenn", Make: "Invented" },
      IFD3: {
        GPSLatitudeRef: "S",
        GPSLatitude: "31/1 30/1 0/1",
        GPSLongitudeRef: "E",
        GPSLongitude: "138/1 0/1 0/1",
      },
    })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
}
