"use client";
/** The same, drawn by the browser: its rows weigh a fifth of their markup. */
export { OverBikes as OverBikesHere } from "./OverBikes";
