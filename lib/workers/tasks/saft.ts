export { saftHead, saftTransactions } from "@/lib/documents/saft";
