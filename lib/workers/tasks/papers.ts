import { quotePdf as printQuote, type QuotePaper } from "@/lib/documents/quote";

export { arrivalPdf } from "@/lib/documents/arrival";
export { einvoiceXml } from "@/lib/documents/einvoice";
export { printEnclosed } from "@/lib/documents/enclosed";
export { endOfDayPdf } from "@/lib/documents/endOfDay";
export { handoverPdf } from "@/lib/documents/handover";
export { invoicePdf, sheetPdf } from "@/lib/documents/invoice";
export { jobCardPdf } from "@/lib/documents/jobCard";
export { labelsPdf } from "@/lib/documents/label";
export { moneyPdf } from "@/lib/documents/moneyPaper";
export { orderPdf } from "@/lib/documents/order";
export { reminderPdf } from "@/lib/documents/reminder";
export { settingSheetPdf } from "@/lib/documents/settingSheet";
export { statementPdf } from "@/lib/documents/statement";

/** A quote on the paper of a country. */
export const quotePdf = ({ quote, country }: { quote: QuotePaper; country: string }) =>
  printQuote(quote, country);
