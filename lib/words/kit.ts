/** What forms and messages on a customer's pages say by themselves. */
export const kit = {
  en: {
    sending: "Sending",
    unreachable: "The answer did not come back.",
    unreachableRemedy:
      "What you typed is still here. Check the connection and send it again: it is recorded once, however often you send.",
    broke: "Something broke on our side.",
    brokeRemedy:
      "What you typed is still here. Try once more; if it breaks again, tell the shop's owner this number:",
    undo: "Undo",
    dismiss: "Dismiss",
    messages: "Messages",
    minutes: "min",
    hours: "h",
  },
  nb: {
    sending: "Sender",
    unreachable: "Svaret kom ikke tilbake.",
    unreachableRemedy:
      "Det du skrev, står her fortsatt. Sjekk forbindelsen og send det igjen: det blir registrert én gang, uansett hvor ofte du sender.",
    broke: "Noe gikk galt hos oss.",
    brokeRemedy:
      "Det du skrev, står her fortsatt. Prøv en gang til; går det galt igjen, gi verkstedet dette nummeret:",
    undo: "Angre",
    dismiss: "Lukk",
    messages: "Meldinger",
    minutes: "min",
    hours: "t",
  },
} as const;
