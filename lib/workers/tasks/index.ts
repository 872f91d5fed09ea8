import { readSheet } from "./imports";
import { readDynoLog, readRiddenLog } from "./logs";
import {
  arrivalPdf,
  handoverPdf,
  invoicePdf,
  jobCardPdf,
  labelsPdf,
  orderPdf,
  printEnclosed,
  quotePdf,
  reminderPdf,
  settingSheetPdf,
  statementPdf,
} from "./papers";
import { jpegFromHeic } from "./pictures";

/** All that a worker thread can do: pure functions of one plain value each, answering a plain value. */
export const TASKS = {
  arrivalPdf,
  handoverPdf,
  invoicePdf,
  jobCardPdf,
  jpegFromHeic,
  labelsPdf,
  orderPdf,
  printEnclosed,
  quotePdf,
  readDynoLog,
  readRiddenLog,
  readSheet,
  settingSheetPdf,
  reminderPdf,
  statementPdf,
} as const;
