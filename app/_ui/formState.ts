/** One shape for forms and the gate: what a form's action answers. */
export { type FormAction, type FormState, UNASKED, type UndoOffer } from "@/lib/schemas/formState";
