-- AlterEnum
ALTER TYPE "PaymentKind" ADD VALUE 'overpayment';
