export const CARBURETTOR_TYPES = ["constant vacuum", "mechanical slide"] as const;
