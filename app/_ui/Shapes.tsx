"use client";

/** The shapes of states, drawn once for a document: each use of one names it. */
export function Shapes() {
  return (
    <svg aria-hidden="true" className="hidden">
      <symbol id="shape-circle" viewBox="0 0 12 12">
        <circle cx="6" cy="6" r="4" fill="none" />
      </symbol>
      <symbol id="shape-diamond" viewBox="0 0 12 12">
        <path d="M6 1.5 10.5 6 6 10.5 1.5 6Z" />
      </symbol>
      <symbol id="shape-square" viewBox="0 0 12 12">
        <path d="M2 2h8v8H2z" fill="none" />
      </symbol>
      <symbol id="shape-filled" viewBox="0 0 12 12">
        <path d="M2 2h8v8H2z" fill="currentColor" />
      </symbol>
      <symbol id="shape-triangle" viewBox="0 0 12 12">
        <path d="M6 2 10.8 10.2H1.2Z" />
      </symbol>
      <symbol id="shape-dash" viewBox="0 0 12 12">
        <path d="M1.5 6h9" />
      </symbol>
    </svg>
  );
}
