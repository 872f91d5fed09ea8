import { type ArrivalView, marksOn } from "../arrivals/get";

/** How a bike came, as papers tell it; `text` says a moment on the shop's clock. */
export function arrivalOnPaper(view: ArrivalView, text: (at: Date) => string) {
  const { signedAt, signedBy, signature } = view;
  return {
    cameText: text(view.at),
    odometerKm: view.odometerKm,
    fuelEighths: view.fuelEighths,
    keys: view.keys,
    accessories: view.accessories,
    words: view.words,
    damages: view.damages.map(({ photos, number, side, part, what, note }) => ({
      number,
      side,
      part,
      what,
      note,
      photos: photos.length,
    })),
    marks: { left: marksOn("left", view.damages), right: marksOn("right", view.damages) },
    signed: signedAt && { signedBy, signedText: text(signedAt), signature },
  };
}
