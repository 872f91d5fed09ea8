"use client";
import { useRouter } from "next/navigation";
import { useState } from "react";
import { ActBar } from "@/app/_ui/ActBar";
import { Form } from "@/app/_ui/Form";
import type { FormState } from "@/app/_ui/formState";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PhotoPick } from "@/app/_ui/PhotoPick";
import { PhotoState } from "@/app/_ui/PhotoState";
import { photoAddress } from "@/app/_ui/photoAddress";
import { usePhotoSending } from "@/app/_ui/photoSending";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { useToasts } from "@/app/_ui/toastContext";
import { find } from "../../actions";

interface FoundFormProps {
  slug: string;
  jobId: number;
  step: { id: number; name: string } | undefined;
  mayPhoto: boolean;
}

/** What was found, with a photo of it: the words are kept first, then the photo is sent to them. */
export function FoundForm({ slug, jobId, step, mayPhoto }: FoundFormProps) {
  const router = useRouter();
  const toasts = useToasts();
  const [findingId, setFindingId] = useState<number>();
  const card = `/s/${slug}/jobs/${jobId}/card`;
  const sending = usePhotoSending(() => {
    toasts.say({ text: "Kept, with its photo: the desk sees it." });
    router.push(card);
    router.refresh();
  });
  const { photo } = sending;
  const done = (answer: FormState) => {
    const id = Number(answer.shown?.finding);
    if (!id || !photo) return;
    setFindingId(id);
    void sending.send(photo, photoAddress(slug, "finding", id));
  };
  if (findingId !== undefined)
    return (
      <>
        <p className="font-semibold">What you found is kept.</p>
        {photo && (
          <PhotoState
            photo={photo}
            onAgain={() => sending.send(photo, photoAddress(slug, "finding", findingId))}
            onDrop={() => router.push(card)}
          />
        )}
        {photo?.share == null && mayPhoto && (
          <PhotoPick
            of="of what you found"
            size="act"
            onFile={(file) => sending.send(sending.choose(file), photoAddress(slug, "finding", findingId))}
          />
        )}
      </>
    );
  return (
    <Form
      action={find}
      shop={slug}
      hidden={{
        jobId: String(jobId),
        ...(step ? { stepId: String(step.id) } : {}),
        ...(photo && !photo.trouble ? { photo: "waits" } : {}),
      }}
      label="Found something"
      keep={`found ${jobId} ${step?.id ?? ""}`}
      onDone={done}
    >
      <TextArea
        name="text"
        label={step ? `What, at “${step.name}”` : "What"}
        hint="The desk sees it at once and can quote it as a variation."
        rows={5}
        required
        maxLength={1000}
      />
      {photo && <PhotoState photo={photo} onDrop={sending.drop} />}
      {mayPhoto && <PhotoPick of="of what you found" size="act" onFile={sending.choose} />}
      <ActBar main={<SubmitButton size="act">Keep it</SubmitButton>}>
        <LinkButton href={card}>Back to the card</LinkButton>
      </ActBar>
    </Form>
  );
}
