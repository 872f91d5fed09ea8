/** Carburettor families that an entry may be for. */
export const FAMILIES = [
  { key: "cv-side", name: "Constant vacuum, side-draught" },
  { key: "cv-down", name: "Constant vacuum, down-draught" },
  { key: "slide", name: "Mechanical slide" },
  { key: "twin-rack", name: "Twin on a rack" },
  { key: "four-rack", name: "Four on a rack" },
] as const;
export type FamilyKey = (typeof FAMILIES)[number]["key"];

/** Where on the bike an entry belongs, from the seat down. */
export const PLACES = [
  { key: "tank", name: "Seat and tank" },
  { key: "airbox", name: "Airbox" },
  { key: "top", name: "Top: cap, slide, diaphragm" },
  { key: "bowl", name: "Float bowl" },
  { key: "swung", name: "Swung on the manifolds" },
  { key: "out", name: "Out on the bench" },
  { key: "header", name: "Header and silencer" },
  { key: "running", name: "Engine running" },
] as const;
export type PlaceKey = (typeof PLACES)[number]["key"];

export const FAMILY_KEYS = FAMILIES.map(({ key }) => key) as [FamilyKey, ...FamilyKey[]];
export const PLACE_KEYS = PLACES.map(({ key }) => key) as [PlaceKey, ...PlaceKey[]];

export const placeName = (key: PlaceKey): string => PLACES.find((one) => one.key === key)?.name ?? key;
export const familyName = (key: FamilyKey): string => FAMILIES.find((one) => one.key === key)?.name ?? key;
