/** What every form of a draft's terms is given. */
export interface Given {
  slug: string;
  /** The quote's id and version. */
  hidden: Readonly<Record<string, string>>;
  currency: string;
}
