import { FUEL, MAKER, RUNNING, type SpokenProcedure } from "./spoken";

/** Measuring of a carburettor's own parts, in Bokmål. */
export const CARBURETTOR: Readonly<Record<string, SpokenProcedure>> = {
  "mixture-screw-count": {
    name: "Blandeskrue, talt fra setet",
    instrument: "Skrutrekkeren som passer skruen, med et merke på skaftet",
    resolution: "En åttedels omdreining",
    readings: "Telles inn, og så ut igjen til der den sto: de to må stemme, ellers telles det en gang til.",
    steps: [
      "Merk skaftet. Skru langsomt inn og tell åttedeler til skruen så vidt tar imot: slik ble den funnet.",
      "Stopp når den så vidt tar imot. Skru like mange ut igjen; se etter om fjær, skive og O-ring er der, i den rekkefølgen.",
      "Omdreininger ut = åttedeler ÷ 8. Hver forgasser for seg, slik den ble funnet, før noe skrus for godt.",
    ],
    cautions: [
      "Skrus den hardt inn, brekker spissen i setet eller utvider det: to fingrer, uten tak. På noen modeller er skruen plombert for utslippenes skyld: loven på stedet og produsentens håndbok gjelder.",
      MAKER,
    ],
    labels: ["fjær", "O-ring", "stopp når den tar imot", "tell åttedeler", "hus"],
  },
  "float-height-by-gauge": {
    name: "Flottørhøyde med lære",
    instrument: "Flottørlære eller dybdestaget på et skyvelær, rett på pakningsflaten",
    resolution: "0,5 mm med flottørlære, 0,1 mm med skyvelær",
    readings:
      "Tre ved hver flottør, med forgasseren løftet imellom; den midterste teller. På dobbel flottør begge sider.",
    steps: [
      "Ta av flottørkoppen og pakningen. Hold huset slik at flottørens vekt ikke trykker på ventilen: vippet til tungen så vidt rører den fjærende stiften.",
      "Sett læret på den bare pakningsflaten, i rett vinkel på den, over flottørens høyeste punkt.",
      "Les fra pakningsflaten til flottøren. Bøy bare tungen, litt om gangen, og les på nytt.",
    ],
    cautions: [
      FUEL,
      "Den fjærende stiften trykkes ikke inn: en høyde lest med den inne gir flom i motoren senere. Plastflottører og tappene deres brekker: trykk, aldri dra.",
    ],
    labels: ["flottør", "hus, opp ned", "tungen rører så vidt", "fra bar pakningsflate", "høyde", "lære"],
  },
  "float-height-by-tube": {
    name: "Bensinnivå med klar slange",
    instrument: "Klar slange som tåler bensin på koppens tappeskrue, og en stållinjal",
    resolution: "0,5 mm",
    readings:
      "Tre, med bensinen stengt og åpnet igjen imellom; den midterste teller. Hver forgasser for seg.",
    before: ["Sykkelen står som når den kjøres, rett opp og i vater.", "Flottørventilen er ren og tett."],
    steps: [
      "Skyv slangen på tappestussen og hold den frie enden over forgasseren, ved siden av koppen.",
      "Åpne tappeskruen, og så bensinen. La det stige til det står stille.",
      "Les nivået i slangen mot pakningsflaten, på forgasserens midtlinje, med øyet i samme høyde.",
      "Steng bensinen og tappeskruen, senk slangen ned i kannen, og ta den så av.",
    ],
    cautions: [FUEL, RUNNING, MAKER],
    labels: ["hus", "bensin", "tapping", "nivå", "pakningsflate", "klar slange", "la det", "stå"],
  },
  "needle-at-stations": {
    name: "Nål ved målepunkter",
    instrument: "Mikrometer med sperre, og et skyvelær eller en merket kloss for avstanden langs nålen",
    resolution: "0,01 mm; 0,001 mm der mikrometeret har det. Avstand 0,5 mm",
    readings:
      "Ved fem målepunkter eller flere, to av dem på den rette delen; ved hvert to ganger, med nålen vridd en kvart: den minste teller, for den siden er slitt.",
    steps: [
      "Tørk nål og ambolter rene. Lukk mikrometeret på ingenting: det må vise null.",
      "Mål avstander fra undersiden av skulderen, samme flate hver gang.",
      "Lukk med sperren til den klikker, aldri med trommelen: konusen glir unna og viser for lite.",
      "Merk hvor det blanke begynner: der sliter sleiden den.",
    ],
    cautions: ["En nål bøyer seg i fingrene: bær den etter hodet. En bøyd nål skiftes, den rettes ikke."],
    labels: ["hode", "skulder", "mikrometer", "konus", "målepunkter", "avstand fra skulderen"],
  },
  "needle-jet-bore": {
    name: "Nåldyse: hull og urundhet",
    instrument: "Målepinner i trinn, eller et lære for små hull med mikrometer",
    resolution: "0,01 mm: trinnet mellom pinnene",
    readings:
      "Den tykkeste pinnen som går inn av sin egen vekt, to ganger. Urundhet: langs forgasseren og på tvers, tre ganger hver; den største minus den minste av de to midterste verdiene.",
    steps: [
      "Vask dysen og blås den tørr: lakk gjør hullet mindre. Tre eller nylon i hullet, aldri ståltråd.",
      "Prøv pinner fra den tynne siden og oppover. Den som faller igjennom er for tynn, den som må skyves er for tykk.",
      "Se på kanten mot lyset: nålen sliter dysen på motorens side, så hullet blir eggformet der.",
    ],
    cautions: ["Press aldri en pinne: den utvider dysen, og det kan ikke gjøres om."],
    labels: ["på tvers", "langs", "målepinne", "av sin egen vekt", "enden av dysen"],
  },
  "diaphragm-by-light": {
    name: "Membran mot lyset",
    instrument: "En sterk, kald lampe bak membranen, i en mørk krok",
    resolution: "Ett lyspunkt",
    readings:
      "En gang langsomt rundt, med folden spredt mellom to fingrer; en gang til med sleiden vridd en halv omdreining. Det største antallet teller.",
    steps: [
      "Løft sleiden ut med membranen; hold i sleiden, aldri i gummien.",
      "Hold lampen bak gummien, ikke foran: et hull viser seg som et punkt, et tynt sted som et skjær.",
      "Spre folden forsiktig ved kanten og ved sleiden: der sprekker den først. Se på vulsten og tappen også.",
    ],
    cautions: [
      FUEL,
      "Bare en kald lampe: en varm pære tenner bensinen på gummien. Verken bremserens eller tynner på gummi: den sveller og går ikke tilbake i sporet.",
    ],
    labels: ["sleide", "kald lampe, bak", "et lyspunkt", "spre folden", "vulst"],
  },
};
