/** `TEST_SIZE=full` makes the longest tests as long as they were meant once; else they are as long as each commit can wait for. */
export const FULL = process.env.TEST_SIZE === "full";
