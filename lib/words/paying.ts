/** How some money is paid: what stands before each part of an account, on pages, papers and in letters alike. */
export const paying = {
  en: {
    holder: "Account name",
    bsb: "BSB",
    sortCode: "Sort code",
    routing: "Routing number",
    number: "Account number",
    iban: "IBAN",
    bic: "BIC",
    reference: "Reference",
    kid: "KID",
    code: "This payment as a code for your bank's app",
    row: "{name}: {value}",
  },
  nb: {
    holder: "Kontoinnehaver",
    bsb: "BSB",
    sortCode: "Bankkode (sort code)",
    routing: "Bankkode (routing number)",
    number: "Kontonummer",
    iban: "IBAN",
    bic: "BIC",
    reference: "Merkes med",
    kid: "KID",
    code: "Betalingen som kode for bankens app",
    row: "{name}: {value}",
  },
} as const;
