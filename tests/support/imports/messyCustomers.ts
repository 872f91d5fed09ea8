/** A pseudo-random sequence from a fixed seed (Park and Miller, 1988), so that the list is the same each time. */
function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
}

const FIRST = ["Kari", "Åse", "Bjørn", "Ola", "Ingrid", "Sæbjørg", "Tor", "Liv", "Even", "Gro", "Pål", "Une"];
const LAST = ["Fossvik", "Tindeland", "Myrholt", "Sandøy", "Grålid", "Elvestrand", "Nordlæg", "Haugvåg"];

export interface Messy {
  readonly text: string;
  /** How many people stand in it. */
  readonly people: number;
  readonly rows: number;
}

/**
 * 200 rows as an old list looks: no number, an address in four columns, people twice and three times in other spellings, with
 * and without phone or e-mail, blank lines, two who have the same name but are not one.
 */
export function messyCustomers(): Messy {
  const pick = numbers(7);
  const people = FIRST.flatMap((first, f) =>
    LAST.map((last, l) => ({
      first,
      last,
      phone: `9${String(f).padStart(2, "0")}${String(l).padStart(2, "0")}417`,
      mail: `${first}.${last}@example.org`
        .normalize("NFKD")
        .replace(/[^a-zA-Z.@]/g, "")
        .toLowerCase(),
      street: `Storgata ${f * 10 + l}`,
    })),
  );
  const line = (...cells: string[]) =>
    cells.map((cell) => (/[;"]/.test(cell) ? `"${cell}"` : cell)).join(";");
  const rows: string[] = people.map((one) =>
    line(`${one.first} ${one.last}`, one.phone, one.mail, one.street, "2663", "Dovreskogen", ""),
  );
  // Two people of one name: nobody takes them for one.
  rows.push(line("Kari Fossvik", "40000001", "kari2@example.org", "Lia 3", "2640", "Vinstra", ""));
  const ways = [
    (one: (typeof people)[number]) =>
      line(`${one.last}, ${one.first}`, `+47 ${one.phone}`, "", "", "", "", ""),
    (one: (typeof people)[number]) =>
      line(`${one.first} ${one.last}`.toUpperCase(), "", one.mail.toUpperCase(), "", "", "", ""),
    (one: (typeof people)[number]) =>
      line(
        ` ${one.first}  ${one.last} `,
        `00 47 ${one.phone.replace(/(..)/g, "$1 ")}`,
        one.mail,
        "",
        "",
        "",
        "ringes",
      ),
    (one: (typeof people)[number]) => line(`${one.first} ${one.last}`, "", "", one.street, "2663", "", ""),
  ];
  // The first name's family has a namesake, whom a row without phone and e-mail could mean.
  while (rows.length < 200) {
    const one = people[1 + pick(people.length - 1)] as (typeof people)[number];
    rows.push((ways[pick(ways.length)] as (typeof ways)[number])(one));
  }
  const text = [
    line("Navn", "Tlf.", "E-post", "Adresse", "Postnr", "Poststed", "Merknad"),
    ...rows.slice(0, 150),
    ";;;;;;",
    ...rows.slice(150),
    "",
  ].join("\r\n");
  return { text, people: people.length + 1, rows: rows.length };
}
