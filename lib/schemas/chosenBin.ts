/** A bin chosen from those a part lies in: "in:A1", and "in:" for no bin. Anything else is the usual one, then the others. */
export const chosen = (bin: string) => `in:${bin}`;
