import { bankList } from "./bank";
import { readSheet } from "./imports";
import { readDynoLog, readRiddenLog } from "./logs";
import {
  arrivalPdf,
  einvoiceXml,
  endOfDayPdf,
  handoverPdf,
  invoicePdf,
  jobCardPdf,
  labelsPdf,
  moneyPdf,
  orderPdf,
  printEnclosed,
  quotePdf,
  reminderPdf,
  settingSheetPdf,
  sheetPdf,
  statementPdf,
} from "./papers";
import { jpegFromHeic } from "./pictures";
import { saftHead, saftTransactions } from "./saft";

/** All that a worker thread can do: pure functions of one plain value each, answering a plain value. */
export const TASKS = {
  arrivalPdf,
  bankList,
  endOfDayPdf,
  einvoiceXml,
  handoverPdf,
  invoicePdf,
  jobCardPdf,
  jpegFromHeic,
  labelsPdf,
  moneyPdf,
  orderPdf,
  printEnclosed,
  quotePdf,
  readDynoLog,
  readRiddenLog,
  readSheet,
  saftHead,
  saftTransactions,
  settingSheetPdf,
  sheetPdf,
  reminderPdf,
  statementPdf,
} as const;
