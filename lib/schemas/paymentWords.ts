export const PAYMENT_METHODS = ["cash", "card", "transfer"] as const;
export const METHOD_WORDS = { cash: "cash", card: "card", transfer: "bank transfer" } as const;
export const PAYMENT_WORDS = {
  deposit: "deposit",
  payment: "payment",
  refund: "paid back",
  writeOff: "written off",
  bounced: "bounced",
  overpayment: "over-payment",
} as const;
