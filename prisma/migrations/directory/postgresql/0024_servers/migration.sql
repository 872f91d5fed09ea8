-- AlterTable
ALTER TABLE "Shop" ADD COLUMN     "server" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "ShopInMaking" ADD COLUMN     "server" TEXT NOT NULL DEFAULT '';
