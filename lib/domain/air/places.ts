import type { Spot } from "./climate";

/** A place that a shop can be near, with its coordinates in degrees, south and west negative. */
export interface KnownPlace {
  readonly name: string;
  readonly zone: string;
  readonly latitude: number;
  readonly longitude: number;
}

/** The city that names each time zone. Source: IANA tz database, zone1970.tab (public domain), to a tenth of a degree. */
const ZONE_CITIES = `
Africa/Abidjan 5.3 -4.0;Africa/Algiers 36.8 3.0;Africa/Bissau 11.8 -15.6;Africa/Cairo 30.1 31.2;
Africa/Casablanca 33.6 -7.6;Africa/Ceuta 35.9 -5.3;Africa/El_Aaiun 27.1 -13.2;
Africa/Johannesburg -26.2 28.0;Africa/Juba 4.8 31.6;Africa/Khartoum 15.6 32.5;Africa/Lagos 6.5 3.4;
Africa/Maputo -26.0 32.6;Africa/Monrovia 6.3 -10.8;Africa/Nairobi -1.3 36.8;
Africa/Ndjamena 12.1 15.1;Africa/Sao_Tome 0.3 6.7;Africa/Tripoli 32.9 13.2;Africa/Tunis 36.8 10.2;
Africa/Windhoek -22.6 17.1;America/Adak 51.9 -176.7;America/Anchorage 61.2 -149.9;
America/Araguaina -7.2 -48.2;America/Argentina/Buenos_Aires -34.6 -58.5;
America/Argentina/Catamarca -28.5 -65.8;America/Argentina/Cordoba -31.4 -64.2;
America/Argentina/Jujuy -24.2 -65.3;America/Argentina/La_Rioja -29.4 -66.8;
America/Argentina/Mendoza -32.9 -68.8;America/Argentina/Rio_Gallegos -51.6 -69.2;
America/Argentina/Salta -24.8 -65.4;America/Argentina/San_Juan -31.5 -68.5;
America/Argentina/San_Luis -33.3 -66.3;America/Argentina/Tucuman -26.8 -65.2;
America/Argentina/Ushuaia -54.8 -68.3;America/Asuncion -25.3 -57.7;America/Bahia -13.0 -38.5;
America/Bahia_Banderas 20.8 -105.2;America/Barbados 13.1 -59.6;America/Belem -1.4 -48.5;
America/Belize 17.5 -88.2;America/Boa_Vista 2.8 -60.7;America/Bogota 4.6 -74.1;
America/Boise 43.6 -116.2;America/Cambridge_Bay 69.1 -105.1;America/Campo_Grande -20.4 -54.6;
America/Cancun 21.1 -86.8;America/Caracas 10.5 -66.9;America/Cayenne 4.9 -52.3;
America/Chicago 41.9 -87.7;America/Chihuahua 28.6 -106.1;America/Ciudad_Juarez 31.7 -106.5;
America/Costa_Rica 9.9 -84.1;America/Coyhaique -45.6 -72.1;America/Cuiaba -15.6 -56.1;
America/Dawson 64.1 -139.4;America/Dawson_Creek 55.8 -120.2;America/Denver 39.7 -105.0;
America/Detroit 42.3 -83.0;America/Edmonton 53.5 -113.5;America/Eirunepe -6.7 -69.9;
America/El_Salvador 13.7 -89.2;America/Fort_Nelson 58.8 -122.7;America/Fortaleza -3.7 -38.5;
America/Glace_Bay 46.2 -60.0;America/Goose_Bay 53.3 -60.4;America/Grand_Turk 21.5 -71.1;
America/Guatemala 14.6 -90.5;America/Guayaquil -2.2 -79.8;America/Guyana 6.8 -58.2;
America/Halifax 44.6 -63.6;America/Havana 23.1 -82.4;America/Hermosillo 29.1 -111.0;
America/Indiana/Indianapolis 39.8 -86.2;America/Indiana/Knox 41.3 -86.6;
America/Indiana/Marengo 38.4 -86.3;America/Indiana/Petersburg 38.5 -87.3;
America/Indiana/Tell_City 38.0 -86.8;America/Indiana/Vevay 38.7 -85.1;
America/Indiana/Vincennes 38.7 -87.5;America/Indiana/Winamac 41.1 -86.6;America/Inuvik 68.3 -133.7;
America/Iqaluit 63.7 -68.5;America/Jamaica 18.0 -76.8;America/Juneau 58.3 -134.4;
America/Kentucky/Louisville 38.3 -85.8;America/Kentucky/Monticello 36.8 -84.8;
America/La_Paz -16.5 -68.2;America/Lima -12.1 -77.0;America/Los_Angeles 34.1 -118.2;
America/Maceio -9.7 -35.7;America/Managua 12.2 -86.3;America/Manaus -3.1 -60.0;
America/Martinique 14.6 -61.1;America/Matamoros 25.8 -97.5;America/Mazatlan 23.2 -106.4;
America/Menominee 45.1 -87.6;America/Merida 21.0 -89.6;America/Metlakatla 55.1 -131.6;
America/Mexico_City 19.4 -99.2;America/Miquelon 47.0 -56.3;America/Moncton 46.1 -64.8;
America/Monterrey 25.7 -100.3;America/Montevideo -34.9 -56.2;America/New_York 40.7 -74.0;
America/Nome 64.5 -165.4;America/Noronha -3.9 -32.4;America/North_Dakota/Beulah 47.3 -101.8;
America/North_Dakota/Center 47.1 -101.3;America/North_Dakota/New_Salem 46.8 -101.4;
America/Nuuk 64.2 -51.7;America/Ojinaga 29.6 -104.4;America/Panama 9.0 -79.5;
America/Paramaribo 5.8 -55.2;America/Phoenix 33.4 -112.1;America/Port-au-Prince 18.5 -72.3;
America/Porto_Velho -8.8 -63.9;America/Puerto_Rico 18.5 -66.1;America/Punta_Arenas -53.1 -70.9;
America/Rankin_Inlet 62.8 -92.1;America/Recife -8.1 -34.9;America/Regina 50.4 -104.7;
America/Resolute 74.7 -94.8;America/Rio_Branco -10.0 -67.8;America/Santarem -2.4 -54.9;
America/Santiago -33.5 -70.7;America/Santo_Domingo 18.5 -69.9;America/Sao_Paulo -23.5 -46.6;
America/Scoresbysund 70.5 -22.0;America/Sitka 57.2 -135.3;America/St_Johns 47.6 -52.7;
America/Swift_Current 50.3 -107.8;America/Tegucigalpa 14.1 -87.2;America/Tijuana 32.5 -117.0;
America/Toronto 43.6 -79.4;America/Vancouver 49.3 -123.1;America/Whitehorse 60.7 -135.1;
America/Winnipeg 49.9 -97.2;America/Yakutat 59.5 -139.7;Antarctica/Casey -66.3 110.5;
Antarctica/Davis -68.6 78.0;Antarctica/Macquarie -54.5 158.9;Antarctica/Mawson -67.6 62.9;
Antarctica/Palmer -64.8 -64.1;Antarctica/Rothera -67.6 -68.1;Antarctica/Troll -72.0 2.5;
Asia/Almaty 43.2 77.0;Asia/Amman 31.9 35.9;Asia/Anadyr 64.8 177.5;Asia/Aqtau 44.5 50.3;
Asia/Aqtobe 50.3 57.2;Asia/Ashgabat 38.0 58.4;Asia/Atyrau 47.1 51.9;Asia/Baghdad 33.4 44.4;
Asia/Baku 40.4 49.9;Asia/Bangkok 13.8 100.5;Asia/Barnaul 53.4 83.8;Asia/Beirut 33.9 35.5;
Asia/Bishkek 42.9 74.6;Asia/Chita 52.0 113.5;Asia/Colombo 6.9 79.8;Asia/Damascus 33.5 36.3;
Asia/Dhaka 23.7 90.4;Asia/Dili -8.6 125.6;Asia/Dubai 25.3 55.3;Asia/Dushanbe 38.6 68.8;
Asia/Famagusta 35.1 34.0;Asia/Gaza 31.5 34.5;Asia/Hebron 31.5 35.1;Asia/Ho_Chi_Minh 10.8 106.7;
Asia/Hong_Kong 22.3 114.2;Asia/Hovd 48.0 91.7;Asia/Irkutsk 52.3 104.3;Asia/Jakarta -6.2 106.8;
Asia/Jayapura -2.5 140.7;Asia/Jerusalem 31.8 35.2;Asia/Kabul 34.5 69.2;Asia/Kamchatka 53.0 158.7;
Asia/Karachi 24.9 67.0;Asia/Kathmandu 27.7 85.3;Asia/Khandyga 62.7 135.6;Asia/Kolkata 22.5 88.4;
Asia/Krasnoyarsk 56.0 92.8;Asia/Kuching 1.6 110.3;Asia/Macau 22.2 113.5;Asia/Magadan 59.6 150.8;
Asia/Makassar -5.1 119.4;Asia/Manila 14.6 121.0;Asia/Nicosia 35.2 33.4;Asia/Novokuznetsk 53.8 87.1;
Asia/Novosibirsk 55.0 82.9;Asia/Omsk 55.0 73.4;Asia/Oral 51.2 51.4;Asia/Pontianak -0.0 109.3;
Asia/Pyongyang 39.0 125.8;Asia/Qatar 25.3 51.5;Asia/Qostanay 53.2 63.6;Asia/Qyzylorda 44.8 65.5;
Asia/Riyadh 24.6 46.7;Asia/Sakhalin 47.0 142.7;Asia/Samarkand 39.7 66.8;Asia/Seoul 37.5 127.0;
Asia/Shanghai 31.2 121.5;Asia/Singapore 1.3 103.8;Asia/Srednekolymsk 67.5 153.7;
Asia/Taipei 25.1 121.5;Asia/Tashkent 41.3 69.3;Asia/Tbilisi 41.7 44.8;Asia/Tehran 35.7 51.4;
Asia/Thimphu 27.5 89.7;Asia/Tokyo 35.7 139.7;Asia/Tomsk 56.5 85.0;Asia/Ulaanbaatar 47.9 106.9;
Asia/Urumqi 43.8 87.6;Asia/Ust-Nera 64.6 143.2;Asia/Vladivostok 43.2 131.9;Asia/Yakutsk 62.0 129.7;
Asia/Yangon 16.8 96.2;Asia/Yekaterinburg 56.9 60.6;Asia/Yerevan 40.2 44.5;Atlantic/Azores 37.7 -25.7;
Atlantic/Bermuda 32.3 -64.8;Atlantic/Canary 28.1 -15.4;Atlantic/Cape_Verde 14.9 -23.5;
Atlantic/Faroe 62.0 -6.8;Atlantic/Madeira 32.6 -16.9;Atlantic/South_Georgia -54.3 -36.5;
Atlantic/Stanley -51.7 -57.9;Australia/Adelaide -34.9 138.6;Australia/Brisbane -27.5 153.0;
Australia/Broken_Hill -31.9 141.4;Australia/Darwin -12.5 130.8;Australia/Eucla -31.7 128.9;
Australia/Hobart -42.9 147.3;Australia/Lindeman -20.3 149.0;Australia/Lord_Howe -31.6 159.1;
Australia/Melbourne -37.8 145.0;Australia/Perth -31.9 115.8;Australia/Sydney -33.9 151.2;
Europe/Andorra 42.5 1.5;Europe/Astrakhan 46.4 48.0;Europe/Athens 38.0 23.7;Europe/Belgrade 44.8 20.5;
Europe/Berlin 52.5 13.4;Europe/Brussels 50.8 4.3;Europe/Bucharest 44.4 26.1;
Europe/Budapest 47.5 19.1;Europe/Chisinau 47.0 28.8;Europe/Dublin 53.3 -6.2;
Europe/Gibraltar 36.1 -5.3;Europe/Helsinki 60.2 25.0;Europe/Istanbul 41.0 29.0;
Europe/Kaliningrad 54.7 20.5;Europe/Kirov 58.6 49.6;Europe/Kyiv 50.4 30.5;Europe/Lisbon 38.7 -9.1;
Europe/London 51.5 -0.1;Europe/Madrid 40.4 -3.7;Europe/Malta 35.9 14.5;Europe/Minsk 53.9 27.6;
Europe/Moscow 55.8 37.6;Europe/Paris 48.9 2.3;Europe/Prague 50.1 14.4;Europe/Riga 57.0 24.1;
Europe/Rome 41.9 12.5;Europe/Samara 53.2 50.1;Europe/Saratov 51.6 46.0;Europe/Simferopol 45.0 34.1;
Europe/Sofia 42.7 23.3;Europe/Tallinn 59.4 24.8;Europe/Tirane 41.3 19.8;Europe/Ulyanovsk 54.3 48.4;
Europe/Vienna 48.2 16.3;Europe/Vilnius 54.7 25.3;Europe/Volgograd 48.7 44.4;Europe/Warsaw 52.2 21.0;
Europe/Zurich 47.4 8.5;Indian/Chagos -7.3 72.4;Indian/Maldives 4.2 73.5;Indian/Mauritius -20.2 57.5;
Pacific/Apia -13.8 -171.7;Pacific/Auckland -36.9 174.8;Pacific/Bougainville -6.2 155.6;
Pacific/Chatham -44.0 -176.6;Pacific/Easter -27.1 -109.4;Pacific/Efate -17.7 168.4;
Pacific/Fakaofo -9.4 -171.2;Pacific/Fiji -18.1 178.4;Pacific/Galapagos -0.9 -89.6;
Pacific/Gambier -23.1 -134.9;Pacific/Guadalcanal -9.5 160.2;Pacific/Guam 13.5 144.8;
Pacific/Honolulu 21.3 -157.9;Pacific/Kanton -2.8 -171.7;Pacific/Kiritimati 1.9 -157.3;
Pacific/Kosrae 5.3 163.0;Pacific/Kwajalein 9.1 167.3;Pacific/Marquesas -9.0 -139.5;
Pacific/Nauru -0.5 166.9;Pacific/Niue -19.0 -169.9;Pacific/Norfolk -29.1 168.0;
Pacific/Noumea -22.3 166.4;Pacific/Pago_Pago -14.3 -170.7;Pacific/Palau 7.3 134.5;
Pacific/Pitcairn -25.1 -130.1;Pacific/Port_Moresby -9.5 147.2;Pacific/Rarotonga -21.2 -159.8;
Pacific/Tahiti -17.5 -149.6;Pacific/Tarawa 1.4 173.0;Pacific/Tongatapu -21.1 -175.2
`;

/** European cities whose zones have kept another's time since 1970 and are left out above. Source: the same, zone.tab. */
const SAME_TIME_CITIES = `
Atlantic/Reykjavik 64.2 -21.9;Europe/Amsterdam 52.4 4.9;Europe/Bratislava 48.2 17.1;
Europe/Busingen 47.7 8.7;Europe/Copenhagen 55.7 12.6;Europe/Guernsey 49.5 -2.5;
Europe/Isle_of_Man 54.2 -4.5;Europe/Jersey 49.2 -2.1;Europe/Ljubljana 46.1 14.5;
Europe/Luxembourg 49.6 6.2;Europe/Mariehamn 60.1 20.0;Europe/Monaco 43.7 7.4;Europe/Oslo 59.9 10.8;
Europe/Podgorica 42.4 19.3;Europe/San_Marino 43.9 12.5;Europe/Sarajevo 43.9 18.4;
Europe/Skopje 42.0 21.4;Europe/Stockholm 59.3 18.1;Europe/Vaduz 47.2 9.5;Europe/Vatican 41.9 12.5;
Europe/Zagreb 45.8 16.0
`;

export const PLACES: readonly KnownPlace[] = `${ZONE_CITIES.trim()};${SAME_TIME_CITIES.trim()}`
  .split(/;\s*/)
  .map((row) => {
    const [zone = "", latitude, longitude] = row.split(" ");
    return {
      name: (zone.split("/").at(-1) ?? zone).replaceAll("_", " "),
      zone,
      latitude: Number(latitude),
      longitude: Number(longitude),
    };
  })
  .sort((a, b) => a.name.localeCompare(b.name, "en"));

/** The place that names a time zone; undefined for a zone that is not listed. */
export function placeOfZone(zone: string): KnownPlace | undefined {
  return PLACES.find((place) => place.zone === zone);
}

/** A place by its name, whatever its capitals; undefined for one that is not listed. */
export function placeNamed(name: string): KnownPlace | undefined {
  const wanted = name.trim().toLowerCase();
  return PLACES.find((place) => place.name.toLowerCase() === wanted);
}

/** Where typical weather is told for: the shop's own degrees, else 40 degrees of its hemisphere and no longitude (judgement). */
export function weatherSpot(home: {
  readonly latitude: number | null;
  readonly longitude: number | null;
  readonly latitudeSouth: boolean;
}): Spot {
  return home.latitude === null
    ? { latitude: home.latitudeSouth ? -40 : 40 }
    : { latitude: home.latitude, longitude: home.longitude };
}
