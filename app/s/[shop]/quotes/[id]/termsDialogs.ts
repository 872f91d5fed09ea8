/** What the dialogs of a draft's terms hold, fetched with the first of them. */
export { DepositForm } from "./DepositForm";
export { DiscountForm, LineDiscountForm } from "./DiscountForms";
export { ExtrasForm } from "./ExtrasForm";
export { LineForm } from "./LineForm";
export { TitleForm } from "./TitleForm";
export { ValidUntilForm } from "./ValidUntilForm";
