import { DateText } from "@/app/_ui/DateText";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { Shown } from "@/app/_ui/Shown";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { listMembers } from "@/lib/data/people/members";
import { ROLE_WORDS, ROLES } from "@/lib/domain/access/permissions";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { open } from "@/lib/gate/open";
import { invitePerson, removePerson, setRole, takeBackInvitation } from "../actions";

const roles = ROLES.map((role) => ({ value: role, label: ROLE_WORDS[role] }));

export default async function People({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("people.write", slug);
  const { memberships, invitations } = await listMembers(shop);
  return (
    <>
      <PageHead of={shop.name} title="People" sub={`${memberships.length} in the shop`} />
      <Section title="In the shop">
        <ul className="max-w-[820px]">
          {memberships.map(({ person, role }) => (
            <li
              key={person.id}
              className="grid items-end gap-3 border-hair border-b py-3 md:grid-cols-[1fr_auto_auto]"
            >
              <div className="self-center">
                <strong>{person.name}</strong>
                <div className="text-soft">{person.email}</div>
              </div>
              <Form
                action={setRole}
                shop={slug}
                hidden={{ personId: person.id }}
                label={`Role of ${person.name}`}
                className="flex flex-wrap items-end gap-2"
              >
                <SelectField name="role" label={`Role of ${person.name}`} initial={role} options={roles} />
                <SubmitButton tone="second">Change</SubmitButton>
              </Form>
              <Dialog trigger="Take out" title={`Take ${person.name} out of the shop?`}>
                <p className="mb-4">
                  From the next click, {person.name} sees nothing of this shop. What they did stays under
                  their name; time of theirs that runs ends now, or with their shift if that is over.
                </p>
                <Form
                  action={removePerson}
                  shop={slug}
                  hidden={{ personId: person.id }}
                  label={`Take out ${person.name}`}
                >
                  <SubmitButton tone="danger">Take out {person.name}</SubmitButton>
                </Form>
              </Dialog>
            </li>
          ))}
        </ul>
      </Section>
      <Section title="Invite">
        <Form action={invitePerson} shop={slug} label="Invite a person" className="max-w-[820px]">
          <div className="grid items-end gap-4 sm:grid-cols-[1fr_1fr_auto]">
            <TextField name="email" label="Email" type="email" required />
            <SelectField name="role" label="Role" initial="tuner" options={roles} />
            <SubmitButton tone="second">Make an invitation</SubmitButton>
          </div>
          <Shown name="link" before="Send them this link. It is shown only now and holds for seven days." />
        </Form>
      </Section>
      {invitations.length > 0 && (
        <Section title="Invited">
          <ul className="max-w-[820px]">
            {invitations.map((invitation) => (
              <li
                key={invitation.id}
                className="flex flex-wrap items-center justify-between gap-3 border-hair border-b py-2"
              >
                <span>
                  {invitation.email}, {invitation.role}, until{" "}
                  <DateText
                    date={dayOf(invitation.expiresAt.getTime(), shop.settings.zone)}
                    locale={shop.settings.locale}
                  />
                </span>
                <Form
                  action={takeBackInvitation}
                  shop={slug}
                  hidden={{ id: String(invitation.id) }}
                  label={`Take back ${invitation.email}`}
                >
                  <SubmitButton tone="quiet">Take back</SubmitButton>
                </Form>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}
