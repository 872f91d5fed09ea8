/** Something the customer says they have understood before they accept, by its key; what it says is the catalogue's. */
export type AcknowledgementKey = "road-use" | "starting-point";

/** What a customer has to acknowledge: that road-use rules may apply, that computed settings are a starting point. */
export function acknowledgementsFor(roadUse: boolean, changesSettings: boolean): AcknowledgementKey[] {
  return [
    ...(roadUse ? (["road-use"] as const) : []),
    ...(changesSettings ? (["starting-point"] as const) : []),
  ];
}
