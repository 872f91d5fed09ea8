/** What a customer says they have understood before a yes, by its key. */
export const acknowledgement = {
  en: {
    "road-use":
      "I understand that changes to airbox, exhaust or mixture can breach type approval, emissions, noise and insurance rules on public roads. I will have a licensed inspector confirm what applies where I ride; the shop does not certify compliance.",
    "starting-point":
      "I understand that computed settings are a starting point: they are verified by plug, lambda and test ride before the bike is handed back, and may be corrected.",
  },
  nb: {
    "road-use":
      "Jeg forstår at endringer på luftboks, eksos eller blanding kan bryte regler om typegodkjenning, utslipp, støy og forsikring på offentlig vei. Jeg får en godkjent kontrollør til å bekrefte hva som gjelder der jeg kjører; verkstedet attesterer ikke at reglene er fulgt.",
    "starting-point":
      "Jeg forstår at beregnede innstillinger er et utgangspunkt: de kontrolleres med plugg, lambda og prøvetur før sykkelen leveres tilbake, og kan bli rettet.",
  },
} as const;
