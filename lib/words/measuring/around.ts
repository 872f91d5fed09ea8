import { FUEL, HOT, MAKER, RUNNING, type SpokenProcedure } from "./spoken";

/** Measuring of slide, spring, air and engine, in Bokmål. */
export const AROUND: Readonly<Record<string, SpokenProcedure>> = {
  "valve-clearance": {
    name: "Ventilklaring, før noen blanding vurderes",
    instrument: "Bladlære",
    resolution: "0,01 til 0,02 mm: trinnet mellom bladene",
    readings:
      "To blad for hver ventil: det tykkeste som så vidt drar, og det neste som ikke går inn. Drei motoren to ganger og les på nytt.",
    before: ["Motoren er kald: så kald som produsentens håndbok sier, som regel under 35 °C."],
    steps: [
      "Drei motoren for hånd til merket, med kammens nese vekk fra ventilen som leses.",
      "Skyv bladet rett inn mellom vippearm eller kam og ventil. Det drar som gjennom en lukket bok.",
      "Skriv opp hver ventil som funnet, inn og ut, før noen stilles.",
    ],
    cautions: [
      HOT,
      "Motoren dreies bare for hånd, med pluggen ute og tenningen av. For liten klaring brenner ventilen.",
      MAKER,
    ],
    labels: ["blad", "ventil", "vippearm", "kam", "nesen peker vekk"],
  },
  "slide-and-guide-play": {
    name: "Klaring mellom sleide og føring",
    instrument: "Bladlære, eller måleur på sleidens flate",
    resolution: "0,05 mm med blad, 0,01 mm med ur",
    readings:
      "Tre ved lite løft og tre ved halvt løft, langs forgasseren; den største teller: en sleide slites der den kjøres mest.",
    steps: [
      "Rens sleide og føringer: lakk skjuler klaring. Fjær og nål er ute.",
      "Hold sleiden mot motorens side. Stikk inn det tykkeste bladet som går uten makt, på luftkassens side.",
      "Med ur: skyv sleiden fra stopp til stopp med en finger og les forskjellen.",
      "Se på flatene: en blank stripe på den ene siden sier at sleiden står skjevt.",
    ],
    cautions: [FUEL, "Stålblad riper myke føringer: skyv dem rett, vri aldri."],
    labels: ["sleide", "føring", "motor", "blad", "klaring"],
  },
  "spring-length-and-rate": {
    name: "Fjær: lengde, og stivhet på vekt",
    instrument: "Stållinjal eller skyvelær; en kjøkkenvekt og en stang som fjæren glir på",
    resolution: "0,5 mm; 1 g på vekten",
    readings:
      "Fri lengde tre ganger, med fjæren vridd imellom; den midterste teller. Stivhet: ved to lengder minst 20 mm fra hverandre, hver tre ganger.",
    steps: [
      "Sett fjæren fritt på en plan plate og les lengden uten å røre den. Tell vindingene som ikke er lukket.",
      "For stivheten: tre den på stangen på vekten, nullstill vekten, trykk den til én lengde med en flat list og les gram.",
      "Trykk den til den andre lengden og les på nytt. Stivhet i N/m = 9,81 × forskjellen i gram ÷ forskjellen i millimeter.",
    ],
    cautions: ["En sammentrykt fjær flyr: stangen går gjennom den, og øynene er bak briller."],
    labels: ["fri lengde", "stang", "sammentrykt", "vekt, g", "plan plate"],
  },
  "hole-by-drill-shank": {
    name: "Hulldiameter med borskaft",
    instrument: "Glatte skaft fra et borsett, eller målepinner; et mikrometer til å kontrollere skaftet",
    resolution: "Trinnet i settet: 0,1 mm",
    readings:
      "To skaft for hvert hull: det tykkeste som går inn, og det neste som ikke gjør det. To ganger, fra begge sider.",
    steps: [
      "Bruk skaftet, aldri skjæret: det skjærer. Mål selve skaftet, for sett holder ikke det som står på dem.",
      "Hold sleiden mot lyset. Gå oppover til et skaft ikke går inn av sin egen vekt.",
      "Skriv opp hvert hull for seg: to hull i en sleide er ofte ikke like.",
    ],
    cautions: [
      "En grad gjør at hullet leses for lite: ta den av for hånd, og vask sponene ut før noe settes tilbake.",
    ],
    labels: ["3,0", "3,1", "går inn", "stopper", "sleide"],
  },
  "opening-and-breather": {
    name: "Åpning i luftkassen, og avstanden til lufteren",
    instrument: "Innvendige kjever på et skyvelær; en stållinjal til avstanden",
    resolution: "0,5 mm; avstand 1 mm",
    readings:
      "To diametre av hver åpning, i rett vinkel; middelet teller. Avstanden en gang, kant til kant, der den er kortest.",
    steps: [
      "Ta graden av kanten først, og støvsug kassen: spon går inn i motoren.",
      "Les hver åpning for seg. En oval teller med middelet av de to diametrene.",
      "Les den korteste avstanden fra åpningens kant til lufterens munning, langs veggen.",
    ],
    cautions: [
      "En åpning ved siden av lufteren trekker inn oljetåke og vann. Mer innsugsstøy og andre utslipp: på vei gjelder loven på stedet.",
    ],
    labels: ["på tvers", "avstand", "lufter", "innvendige kjever", "lokk"],
  },
  "header-weld": {
    name: "Sveis som står igjen inni eksosrøret",
    instrument: "Teleskoplære med skyvelær, eller innvendige kjever så langt de rekker",
    resolution: "0,1 mm; vurder til 0,5 mm",
    readings:
      "Tre mål bak sveisen og tre mellom toppene på den, vridd en tredjedel; halve forskjellen mellom de to midlene teller.",
    before: ["Eksosrøret er av sykkelen og kaldt."],
    steps: [
      "Se inn med en lampe: er strengen jevn, eller bare en klump? Skriv hvilken i merknaden.",
      "Les rørets frie diameter litt bak sveisen.",
      "Les diameteren mellom toppene. Høyde = (rørets diameter − diameter ved sveisen) ÷ 2.",
      "Før du sliper: hvor tykk er veggen utenfor sveisen? En sveis som er slipt ned kan være alt som holder veggen.",
    ],
    cautions: [
      HOT,
      "Slipestøv av rustfritt stål skader lungene: maske og avsug. Tett porten mens eksosrøret er av.",
      MAKER,
    ],
    labels: ["rør", "ved sveisen", "høyde", "halve forskjellen står igjen", "kaldt, og av sykkelen"],
  },
  "vacuum-balance": {
    name: "Synkronisering av to og fire forgassere med vakuum",
    instrument: "Vakuummålere eller søyler på uttakene, alle av ett merke, dempet til de står stille",
    resolution: "1 hPa, eller 1 mmHg (1,3 hPa)",
    readings:
      "Alle forgassere samtidig, på samme tomgang. Les, gi et kort gasspådrag, la det falle til ro, les på nytt: den andre teller. Les på nytt etter hver skrue.",
    before: [
      "Ventilklaring, blandeskruer og bensinnivå er gjort: en stram ventil eller en utett mansjett ser ut som ubalanse.",
      "Alle målere viser det samme på ett uttak: bytt slangene en gang og se.",
      "Motoren er varm, choken helt av, og bensinen kommer fra tanken eller en flaske laget for det.",
    ],
    steps: [
      "Koble målerne til uttakene, start, og still tomgangen som produsenten oppgir.",
      "Før inn alle avlesninger. Forgasseren med størst vakuum er den som er mest lukket.",
      "Drei litt på skruen som programmet nevner, gi et kort gasspådrag, la det falle til ro, og før inn avlesningene på nytt.",
      "Når alle er innenfor båndet: still tomgangen, tett uttakene, og lytt etter lekkasje.",
    ],
    cautions: [
      RUNNING,
      HOT,
      "En flaske som mater motoren henger fast og langt fra eksosrøret; slangen er klemt i begge ender. Følg med på temperaturen: en sykkel som står får ingen kjøling av fart.",
      MAKER,
    ],
    labels: [
      "1",
      "2",
      "3",
      "4",
      "A",
      "C",
      "B",
      "først A, så B, sist C: par mot par",
      "vakuum, alle lest samtidig",
    ],
  },
};
