/** What is selected of the settings to say who the shop is, and what it says to every customer. */
export const LETTERHEAD = {
  name: true,
  legalName: true,
  taxNumber: true,
  address: true,
  phone: true,
  email: true,
  documentNote: true,
} as const;
