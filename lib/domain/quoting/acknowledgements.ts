/** Something the customer says they have understood before they accept. */
export interface Acknowledgement {
  readonly key: string;
  readonly text: string;
}

const ROAD: Acknowledgement = {
  key: "road-use",
  text: "I understand that changes to airbox, exhaust or mixture can breach type approval, emissions, noise and insurance rules on public roads. I will have a licensed inspector confirm what applies where I ride; the shop does not certify compliance.",
};

const START: Acknowledgement = {
  key: "starting-point",
  text: "I understand that computed settings are a starting point: they are verified by plug, lambda and test ride before the bike is handed back, and may be corrected.",
};

/** What a customer has to acknowledge: that road-use rules may apply, that computed settings are a starting point. */
export function acknowledgementsFor(roadUse: boolean, changesSettings: boolean): Acknowledgement[] {
  return [...(roadUse ? [ROAD] : []), ...(changesSettings ? [START] : [])];
}
