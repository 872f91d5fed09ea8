export const YES_HOWS = ["phone", "counter", "message"] as const;
export const YES_WORDS: Readonly<Record<(typeof YES_HOWS)[number], string>> = {
  phone: "on the phone",
  counter: "at the counter",
  message: "in a message",
};

export const AGREEMENTS = ["word", "comeback", "ownBike"] as const;
export const AGREEMENT_WORDS: Readonly<Record<(typeof AGREEMENTS)[number], string>> = {
  word: "agreed by word",
  comeback: "comeback",
  ownBike: "the shop's own bike",
};
