/** The drawer of needle shims: parts of this family count as shims, their size in mm of thickness. */
export const SHIM_FAMILY = "Needle shims";
