/** The northern shop's own words for its customers who read English. */
export const HOYDE_ENGLISH: Readonly<Record<string, string>> = {
  Høydejustering: "Altitude adjustment",
  "Hoveddyse etter høyde": "Main jet for the altitude",
  "Dysen som passer lufta der du kjører.": "The jet that suits the air where you ride.",
  "Blandeskrue og tomgang": "Mixture screw and idle",
  "Stilles varm, og skrives ned i omdreininger.": "Set with the engine warm, and written down in turns.",
  "Flottørhus renset": "Float bowl cleaned",
  "Vann og smuss ut, flottørhøyden målt.": "Water and dirt out, float height measured.",
  "Nytt luftfilter": "New air filter",
  "Oljet skum, ny kant.": "Oiled foam, a new rim.",
  Dyser: "Jets",
  Stell: "Care",
  "Pakken er for én forgasser.": "The package is for one carburettor.",
  "En ny hoveddyse flytter også blandeskruen.": "A new main jet moves the mixture screw too.",
};

export const FJELLREV_ENGLISH: Readonly<Record<string, string>> = {
  "Beregnede innstillinger er et utgangspunkt. Kom innom igjen innen 500 km, så ser vi på det uten betaling.":
    "Computed settings are a starting point. Come by again within 500 km and we look it over free of charge.",
  "Avbestiller du senest dagen før arbeidet begynner, koster det ingenting.":
    "If you cancel no later than the day before the work begins, it costs nothing.",
};
