/** What the door answers, in place of words, where the password was right and a code is wanted. */
export const CODE_WANTED = "code wanted";
