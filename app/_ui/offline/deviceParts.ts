"use client";
/** One part that is fetched at once: without a connection no second one could be. */
export { openDevice } from "./device";
export { WaitingBar } from "./WaitingBar";
