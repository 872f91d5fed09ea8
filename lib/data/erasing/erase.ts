import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { replaceEverywhere, withoutGuards } from "@/lib/db/withoutGuards";
import { photoFiles } from "@/lib/domain/photos/limits";
import { Refusal } from "@/lib/domain/refusal";
import { rekeyBikesIn } from "../bikes/bikeKeys";
import { customerKey } from "../customers/customers";
import { againstErasing } from "./against";
import { keepIn } from "./keeping";
import { erasedName, formerlyWritten, theirsAlone, writtenAs } from "./known";
import { noteErased } from "./noted";
import {
  eraseJobsIn,
  eraseKeysIn,
  erasePhotosIn,
  eraseQuotesIn,
  eraseTracesIn,
  eraseWordsIn,
  tiedTo,
} from "./tied";

/** The part of a file store that erasing needs. */
export interface FileBin {
  remove(name: string): Promise<void>;
}

/**
 * Tables in which nothing is replaced: documents and books that the law keeps as they were, and what says nothing of customers.
 * The revisions of quotes are seen to one by one: accepted ones stay.
 */
const KEPT = new Set(
  (
    "Invoice InvoiceTax DocumentShare EinvoiceOrder Reminder EndOfDay DrawerMove Payment Acceptance JobYes BankAccount BankFormat " +
    "BankList BankLine BankDecision BankPayment QuoteRevision QuoteWork Settings Staff Supplier PartSupplier Package PackageRevision " +
    "LibraryEntry LibraryEdition LibraryLeft PackageEvidence Letter LetterText Phrase ModelCard ModelFact Part Kit JetFamily PartBin " +
    "Customer EinvoiceSeller LedgerAccount LedgerUse BooksClosing Counter"
  ).split(" "),
);

/**
 * Erases what is known of a customer as a person. Their documents that the law keeps stay as they were issued; everything else that
 * names them says “Erased customer N” or nothing. Refused while anything is open. What was erased is written down nowhere.
 */
export async function eraseCustomer(
  shop: ShopHandle,
  { id, version }: { id: number; version: number },
  files: FileBin,
): Promise<void> {
  const against = await againstErasing(shop, id);
  if (against.length)
    throw new Refusal(
      `Not yet: ${against.join(" ")}`,
      "Bring that to an end first. Nothing was erased.",
      {},
      "conflict",
    );
  const gone = await shop.write((tx) =>
    withoutGuards(tx, shop, async () => {
      const customer = await tx.customer.findUnique({ where: { id } });
      if (!customer)
        throw new Refusal("There is no such customer.", "Choose one from the list.", {}, "missing");
      const bikes = await tx.bike.findMany({
        where: { customerId: id },
        select: { id: true, plate: true, frameNumber: true },
        orderBy: { id: "asc" },
      });
      const texts = writtenAs(id, [customer, ...(await formerlyWritten(tx, id))], bikes);
      const alone = await theirsAlone(tx, texts, { customerId: id });
      const tied = await tiedTo(tx, id, customer.email);
      const name = erasedName(id);
      const bare = { name, email: "", phone: "", address: "", taxNumber: "", notes: "" };
      await demandOne(
        tx.customer.updateMany({
          where: { id, version },
          data: {
            ...bare,
            language: "",
            noLetters: true,
            importKey: null,
            searchKey: customerKey(bare),
            version: { increment: 1 },
          },
        }),
        () =>
          new Refusal(`${customer.name} was changed meanwhile.`, "Open the customer again.", {}, "conflict"),
      );
      await keepIn(tx, tied);
      await tx.einvoiceBuyer.deleteMany({ where: { customerId: id } });
      await tx.reminderStop.deleteMany({ where: { customerId: id } });
      await tx.bike.updateMany({
        where: { customerId: id },
        data: {
          plate: "",
          frameNumber: "",
          complaint: "",
          notes: "",
          importKey: null,
          version: { increment: 1 },
        },
      });
      await rekeyBikesIn(tx, { customerId: id });
      const photos = await erasePhotosIn(tx, tied);
      await eraseQuotesIn(tx, tied, texts);
      await eraseJobsIn(tx, tied, texts, name);
      await eraseWordsIn(tx, tied);
      await eraseKeysIn(tx, tied, texts);
      await eraseTracesIn(tx, tied, name);
      await replaceEverywhere(tx, shop, alone, KEPT);
      await audit(tx, shop, "erased personal data", "customer", id);
      return photos;
    }),
  );
  await noteErased(shop, id);
  // The rows went first: a file without its row is only swept, should a stop come here.
  try {
    for (const file of gone) for (const name of Object.values(photoFiles(file))) await files.remove(name);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    throw new Refusal(
      `The customer is erased, but not all of their photos are gone yet. ${cause.message}`,
      "Nothing shows them any more. The server removes them by itself on a day on which it reaches them.",
    );
  }
}
