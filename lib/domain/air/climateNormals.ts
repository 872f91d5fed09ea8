/** A town's climate: mean daily maximum (C) of January and July at its own height in metres. */
export interface ClimateNormal {
  readonly name: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly altitudeM: number;
  readonly januaryC: number;
  readonly julyC: number;
}

/** Name, latitude, longitude, height, January, July. Source: national weather services' normals of 1991 to 2020, from memory, good to about 2 K. */
const NORMALS = `
London 51.5 -0.1 25 8 24;Dublin 53.3 -6.2 50 8 19.5;Edinburgh 55.9 -3.2 60 7 19.5;Paris 48.9 2.3 75 7.5 26;
Bordeaux 44.8 -0.6 50 10.5 27.5;Madrid 40.4 -3.7 660 10 33;Lisbon 38.7 -9.1 80 15 28;
Marseille 43.3 5.4 20 11.5 30;Berlin 52.5 13.4 45 3.5 25;Munich 48.1 11.6 520 3.5 24.5;
Vienna 48.2 16.4 200 4 27.5;Milan 45.5 9.2 120 6.5 30.5;Rome 41.9 12.5 20 12 31;
Palermo 38.1 13.4 30 15 30;Belgrade 44.8 20.5 130 5 29;Athens 38.0 23.7 100 13 34;
Istanbul 41.0 29.0 40 8.5 27.5;Bucharest 44.4 26.1 85 3 30.5;Kyiv 50.4 30.5 170 -1 26;
Warsaw 52.2 21.0 105 0.5 25;Copenhagen 55.7 12.6 10 3.5 22.5;Riga 56.9 24.1 10 -1 23.5;
Moscow 55.8 37.6 155 -4 24.5;Helsinki 60.2 25.0 30 -1 22;Stockholm 59.3 18.1 30 1 23.5;
Oslo 59.9 10.7 95 0 22.5;Bergen 60.4 5.3 10 4.5 18.5;Trondheim 63.4 10.4 10 1.5 19;
Tromso 69.6 19.0 10 -1.5 15.5;Reykjavik 64.1 -21.9 50 3 14.5;Murmansk 69.0 33.0 50 -7 17.5;
Arkhangelsk 64.5 40.5 10 -9 21.5;Samara 53.2 50.2 130 -7 27;Yekaterinburg 56.8 60.6 240 -9.5 24.5;
Novosibirsk 55.0 82.9 150 -12 25.5;Irkutsk 52.3 104.3 450 -13 24.5;Yakutsk 62.0 129.7 100 -35 26;
Vladivostok 43.1 131.9 180 -8 21.5;Almaty 43.2 77.0 850 1 30;Tashkent 41.3 69.3 450 7 36;
Ankara 39.9 32.9 890 4.5 30.5;Tehran 35.7 51.4 1190 8 37;Baghdad 33.3 44.4 35 16 44;
Riyadh 24.6 46.7 620 20 43.5;Dubai 25.3 55.3 5 24 41;Beirut 33.9 35.5 20 17.5 30;
Cairo 30.1 31.2 75 19 34.5;Tunis 36.8 10.2 5 16 33;Algiers 36.8 3.1 25 17 31.5;
Casablanca 33.6 -7.6 60 17.5 25.5;Las_Palmas 28.1 -15.4 10 21 26.5;Dakar 14.7 -17.4 25 26 30.5;
Niamey 13.5 2.1 220 33 34;Lagos 6.5 3.4 40 33 28.5;Khartoum 15.6 32.5 380 31 38.5;
Addis_Ababa 9.0 38.7 2350 23.5 21;Nairobi -1.3 36.8 1660 26 22.5;Kinshasa -4.3 15.3 310 30.5 27.5;
Dar_es_Salaam -6.8 39.3 20 32 29;Harare -17.8 31.0 1490 26.5 22;Windhoek -22.6 17.1 1700 30 20.5;
Johannesburg -26.2 28.0 1700 25.5 16.5;Durban -29.9 31.0 10 28 22.5;Cape_Town -33.9 18.4 45 26 17.5;
Antananarivo -18.9 47.5 1280 26.5 20;Karachi 24.9 67.0 20 26 33.5;Mumbai 19.1 72.9 10 31 30;
Delhi 28.6 77.2 215 20.5 35.5;Kolkata 22.5 88.4 10 26 32.5;Chennai 13.1 80.3 10 29.5 35.5;
Kathmandu 27.7 85.3 1340 19 28.5;Lhasa 29.7 91.1 3650 8 23;Urumqi 43.8 87.6 920 -7.5 30.5;
Bangkok 13.8 100.5 5 32.5 33;Hanoi 21.0 105.8 10 20 33;Singapore 1.3 103.8 15 30.5 31.5;
Jakarta -6.2 106.8 10 30 32.5;Manila 14.6 121.0 10 30 31.5;Hong_Kong 22.3 114.2 30 18.5 31.5;
Shanghai 31.2 121.5 5 8.5 32.5;Beijing 39.9 116.4 50 2 31.5;Harbin 45.8 126.6 140 -12.5 28;
Ulaanbaatar 47.9 106.9 1350 -15.5 24.5;Seoul 37.5 127.0 50 2 29;Tokyo 35.7 139.7 25 10 30;
Sapporo 43.1 141.3 20 -0.5 25.5;Vancouver 49.2 -123.2 5 7 22;San_Francisco 37.8 -122.4 20 14 19.5;
Los_Angeles 34.0 -118.2 80 20 28.5;Phoenix 33.4 -112.0 340 19.5 41;Salt_Lake_City 40.8 -111.9 1290 4 34;
Denver 39.7 -105.0 1610 8 32;Calgary 51.0 -114.1 1080 -1 23.5;Winnipeg 49.9 -97.2 240 -11 26;
Minneapolis 45.0 -93.3 255 -4.5 28.5;Kansas_City 39.1 -94.6 300 4 31.5;Dallas 32.8 -96.8 140 14 35.5;
Houston 29.8 -95.4 15 17.5 35;Chicago 41.9 -87.7 190 -0.5 29;Toronto 43.7 -79.4 110 -0.5 27;
Montreal 45.5 -73.6 35 -5.5 26.5;Halifax 44.6 -63.6 50 0 23.5;St_Johns 47.6 -52.7 140 -0.5 20.5;
New_York 40.7 -74.0 10 4 29.5;Atlanta 33.7 -84.4 300 12 32;Miami 25.8 -80.2 5 24.5 32.5;
Anchorage 61.2 -149.9 35 -5 19;Fairbanks 64.8 -147.7 140 -17.5 23;Whitehorse 60.7 -135.0 700 -11 20.5;
Yellowknife 62.5 -114.4 200 -21.5 21.5;Churchill 58.8 -94.0 30 -22 18;Iqaluit 63.7 -68.5 30 -22.5 12;
Nuuk 64.2 -51.7 80 -5 11;Honolulu 21.3 -157.9 5 27 31;Mexico_City 19.4 -99.1 2240 22 23.5;
Havana 23.1 -82.4 50 26 32;Panama 9.0 -79.5 10 33 31.5;Bogota 4.6 -74.1 2550 19.5 18.5;
Guayaquil -2.2 -79.9 5 31 29;Lima -12.1 -77.0 100 26 19;Manaus -3.1 -60.0 70 31 32.5;
Recife -8.1 -34.9 10 30.5 27.5;Brasilia -15.8 -47.9 1170 27 25.5;Rio_de_Janeiro -22.9 -43.2 10 30.5 25.5;
Asuncion -25.3 -57.6 100 33.5 23;Buenos_Aires -34.6 -58.4 25 30 15;Mendoza -32.9 -68.8 750 32 15;
Santiago -33.4 -70.7 520 30 15;Comodoro_Rivadavia -45.9 -67.5 45 26 10.5;
Punta_Arenas -53.1 -70.9 35 15 4;Perth -31.9 115.9 25 31 18.5;Darwin -12.5 130.8 30 32 31;
Alice_Springs -23.8 133.9 545 36.5 20;Adelaide -34.9 138.6 50 29.5 15.5;Melbourne -37.8 145.0 30 26.5 14;
Hobart -42.9 147.3 50 22.5 13;Sydney -33.9 151.2 40 27 17.5;Brisbane -27.5 153.0 10 30 22;
Port_Moresby -9.5 147.2 40 32 29;Suva -18.1 178.4 5 31 27;Auckland -36.8 174.7 30 24 15;
Christchurch -43.5 172.6 20 22.5 11.5
`;

export const CLIMATE_NORMALS: readonly ClimateNormal[] = NORMALS.trim()
  .split(/;\s*/)
  .map((row) => {
    const [name = "", latitude, longitude, altitudeM, januaryC, julyC] = row.split(" ");
    return {
      name: name.replaceAll("_", " "),
      latitude: Number(latitude),
      longitude: Number(longitude),
      altitudeM: Number(altitudeM),
      januaryC: Number(januaryC),
      julyC: Number(julyC),
    };
  });
