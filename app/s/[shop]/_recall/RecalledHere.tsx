"use client";
/** The same, drawn by the browser: its rows weigh a fifth of their markup. */
export { Recalled as RecalledHere } from "./Recalled";
