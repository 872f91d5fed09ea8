/**
 * The letters as they are until a shop writes its own: placeholders stand for what lib/domain/letters/kinds.ts says. A line
 * whose placeholder has nothing to say is left out, so what may be empty stands on a line of its own.
 */
const en = {
  quote: {
    subject: "Quote {quote}: {title}",
    text: `Hello {name},

here is our quote {quote} for your {bike}: {title}, {total}.

{choices}

See what is done and what it changes, and say yes or no here:
{link}

It is valid until {validUntil}. The link is for you alone: whoever has it can answer for you.

{shop}
{phone}`,
  },
  reminder: {
    subject: "Quote {quote} waits for your answer",
    text: `Hello {name},

our quote {quote} for your {bike} ({title}, {total}) still waits for your answer.

{words}

Read it, ask about it, say yes or no:
{link}

It is valid until {validUntil}. The link is for you alone: whoever has it can answer for you.

{shop}
{phone}`,
  },
  variation: {
    subject: "More work on your {bike}: quote {quote}",
    text: `Hello {name},

your {bike} is with us for job {job}. More work is proposed, and it waits for your word: {title}, {total}.

{choices}

See what was found and what is proposed, and say yes or no here:
{link}

Nothing of it is done or charged without your yes. It is valid until {validUntil}. The link is for you alone: whoever has it can answer for you.

{shop}
{phone}`,
  },
  answer: {
    subject: "Your question on quote {quote}",
    text: `Hello {name},

you asked about our quote {quote}:
{question}

{answer}

{shop}
{phone}`,
  },
  yes: {
    subject: "Quote {quote} accepted",
    text: `Hello {name},

thank you. {acceptedBy} accepted our quote {quote} for the {bike}:
{work}
Total: {total}

The deposit is {deposit}. This is how to pay it:
{bankDetails}

The job's number is {job}.
You wish for it {wish}.
We will be in touch about a day.

{follow}

The quote as you accepted it is enclosed. It can be checked with the shop by this number: {check}.

{shop}
{phone}`,
  },
  booking: {
    subject: "Booked: {starts}, {shop}",
    text: `Hello {name},

Your bike is booked in.

{work}
Bike: {bike}
Bring it: {bring}
Work starts: {starts}
Ready about: {ready}

These are the times on the shop's clock ({zone}).
If this does not suit you, {reach}.

{shop}
{address}`,
  },
  change: {
    subject: "Moved: {starts}, {shop}",
    text: `Hello {name},

Your booking has moved. These times hold now.

{work}
Bike: {bike}
Bring it: {bring}
Work starts: {starts}
Ready about: {ready}

These are the times on the shop's clock ({zone}).
If this does not suit you, {reach}.

{shop}
{address}`,
  },
  cancelled: {
    subject: "Cancelled: {was}, {shop}",
    text: `Hello {name},

Your booking was cancelled. This time no longer holds.

{work}
Bike: {bike}
It was: {was}

These are the times on the shop's clock ({zone}).
If this does not suit you, {reach}.

{shop}`,
  },
  missed: {
    subject: "We missed you: {was}, {shop}",
    text: `Hello {name},

we expected your bike, and it did not come.

{work}
Bike: {bike}
It was booked for: {was}

The next times that are free: {offer}.

These are the times on the shop's clock ({zone}).
To have a new time, or if something went wrong on our side, {reach}.

{shop}
{address}`,
  },
  dayBefore: {
    subject: "Tomorrow: {bring}, {shop}",
    text: `Hello {name},

we expect your bike tomorrow.

{work}
Bike: {bike}
Bring it: {bring}
Ready about: {ready}

Bring the key and the papers. Little fuel in the tank helps.

These are the times on the shop's clock ({zone}).
If something has come up, {reach}.

{shop}
{address}`,
  },
  ready: {
    subject: "Your {bike} is ready, {shop}",
    text: `Hello {name},

your {bike} is ready: {title}.

What was done, what to watch on the first rides and what is to pay stand here:
{link}

Of invoice {number}, {left} is to be paid:
{bankDetails}

{hours}

Please {reach} before you come.

{shop}
{address}`,
  },
  invoice: {
    subject: "{shop}: {what} {number}",
    text: `{greeting}

here is {what} {number} for {purpose}: {amount}.
It is due {due}.

{bankDetails}

{link}

The link opens until {linkUntil}.

{shop}`,
  },
  receipt: {
    subject: "{shop}: {what} {number}",
    text: `{greeting}

here is {what} {number} for {purpose}: {amount}.

{link}

The link opens until {linkUntil}.

{shop}`,
  },
  paymentReminder: {
    subject: "{shop}: invoice {number} is not paid yet",
    text: `{greeting}

our invoice {number} for {purpose} was due {due}. As far as we can see, {left} of it is not paid yet.

{words}

For reminding we ask {fee}: {asked} in all.

This is how to pay it:
{bankDetails}

The invoice and what was paid so far stand here:
{link}

If you have paid meanwhile, thank you: nothing more is to be done. If something about it is not right, {reach}.

{shop}
{phone}`,
  },
  depositRequest: {
    subject: "{shop}: the deposit for {title}",
    text: `Hello {name},

before we begin on {title} we ask for a deposit of {amount}. This is how to pay it:
{bankDetails}

It is taken off the invoice. The request is enclosed; you can follow the work here:
{link}

{shop}
{phone}`,
  },
  paymentReceived: {
    subject: "{shop}: we have received {amount}",
    text: `Hello {name},

we have received {amount} for {title}. Thank you. The receipt is enclosed.

You can follow the work and its invoices here:
{link}

{shop}
{phone}`,
  },
  paidBack: {
    subject: "{shop}: {amount} goes back to you",
    text: `Hello {name},

we have paid {amount} back to you for {title}. A note of it is enclosed.

{link}

{shop}
{phone}`,
  },
  paymentReminder2: {
    subject: "{shop}: second reminder of invoice {number}",
    text: `{greeting}

our invoice {number} for {purpose} was due {due}. We have reminded you of it before, and {left} of it is still not paid.

{words}

For reminding we ask {fee}: {asked} in all.

Please pay it within the next days. This is how:
{bankDetails}

The invoice and what was paid so far stand here:
{link}

If you cannot pay all of it now, or something about it is not right, {reach}: then we find a way.

{shop}
{phone}`,
  },
  paymentReminder3: {
    subject: "{shop}: last reminder of invoice {number}",
    text: `{greeting}

our invoice {number} for {purpose} was due {due}. In spite of our reminders {left} of it is still not paid. This is our last reminder.

{words}

For reminding we ask {fee}: {asked} in all.

Please pay it at once. If nothing comes and we hear nothing from you, we have to have it collected.

This is how to pay it:
{bankDetails}

The invoice and what was paid so far stand here:
{link}

If you cannot pay all of it now, or something about it is not right, {reach} before that.

{shop}
{phone}`,
  },
  statement: {
    subject: "{shop}: statement of account until {until}",
    text: `{greeting}

the statement of your account from {from} to {until} is enclosed.

{balance}

{words}

{bankDetails}

If something about it is not right, {reach}.

{shop}
{phone}`,
  },
  howRuns: {
    subject: "How does your {bike} run?",
    text: `Hello {name},

we worked on your {bike} a while ago: {title}. How does it run? Does it start, idle and pull as you want it to?

Tap what fits best; nothing is sent before you confirm it on the page that opens:
{answers}

If something is not as it should be, {reach}: a small correction is often all it takes. Please turn no screws and change no jets before that.

{shop}
{phone}`,
  },
} as const;

type Texts = { readonly [K in keyof typeof en]: { readonly subject: string; readonly text: string } };

const nb: Texts = {
  quote: {
    subject: "Tilbud {quote}: {title}",
    text: `Hei {name},

her er tilbudet vårt {quote} på {bike}: {title}, {total}.

{choices}

Se hva som gjøres og hva det endrer, og si ja eller nei her:
{link}

Det gjelder til {validUntil}. Lenken er bare for deg: den som har den, kan svare for deg.

{shop}
{phone}`,
  },
  reminder: {
    subject: "Tilbud {quote} venter på svaret ditt",
    text: `Hei {name},

tilbudet vårt {quote} på {bike} ({title}, {total}) venter fortsatt på svaret ditt.

{words}

Les det, spør om det, si ja eller nei:
{link}

Det gjelder til {validUntil}. Lenken er bare for deg: den som har den, kan svare for deg.

{shop}
{phone}`,
  },
  variation: {
    subject: "Mer arbeid på {bike}: tilbud {quote}",
    text: `Hei {name},

vi har {bike} inne til jobb {job}. Vi foreslår mer arbeid, og det venter på svaret ditt: {title}, {total}.

{choices}

Se hva som ble funnet og hva vi foreslår, og si ja eller nei her:
{link}

Ingenting av dette blir gjort eller fakturert uten ditt ja. Det gjelder til {validUntil}. Lenken er bare for deg: den som har den, kan svare for deg.

{shop}
{phone}`,
  },
  answer: {
    subject: "Spørsmålet ditt om tilbud {quote}",
    text: `Hei {name},

du spurte om tilbudet vårt {quote}:
{question}

{answer}

{shop}
{phone}`,
  },
  yes: {
    subject: "Tilbud {quote} er godtatt",
    text: `Hei {name},

takk. {acceptedBy} godtok tilbudet vårt {quote} på {bike}:
{work}
Sum: {total}

Forskuddet er {deposit}. Slik betaler du det:
{bankDetails}

Jobben har nummer {job}.
Ønsket ditt: {wish}.
Vi tar kontakt om en dag.

{follow}

Tilbudet slik du godtok det, er vedlagt. Det kan kontrolleres hos verkstedet med dette nummeret: {check}.

{shop}
{phone}`,
  },
  booking: {
    subject: "Time: {starts}, {shop}",
    text: `Hei {name},

Sykkelen din har fått time.

{work}
Motorsykkel: {bike}
Kom med den: {bring}
Arbeidet begynner: {starts}
Klar omtrent: {ready}

Dette er tider på verkstedets klokke ({zone}).
Passer det ikke, {reach}.

{shop}
{address}`,
  },
  change: {
    subject: "Flyttet: {starts}, {shop}",
    text: `Hei {name},

Timen din er flyttet. Disse tidene gjelder nå.

{work}
Motorsykkel: {bike}
Kom med den: {bring}
Arbeidet begynner: {starts}
Klar omtrent: {ready}

Dette er tider på verkstedets klokke ({zone}).
Passer det ikke, {reach}.

{shop}
{address}`,
  },
  cancelled: {
    subject: "Avlyst: {was}, {shop}",
    text: `Hei {name},

Timen din er avlyst. Denne tiden gjelder ikke lenger.

{work}
Motorsykkel: {bike}
Det var: {was}

Dette er tider på verkstedets klokke ({zone}).
Passer det ikke, {reach}.

{shop}`,
  },
  missed: {
    subject: "Vi ventet på deg: {was}, {shop}",
    text: `Hei {name},

vi ventet sykkelen din, og den kom ikke.

{work}
Motorsykkel: {bike}
Timen var: {was}

De neste ledige tidene: {offer}.

Dette er tider på verkstedets klokke ({zone}).
Vil du ha en ny time, eller gikk noe galt hos oss, {reach}.

{shop}
{address}`,
  },
  dayBefore: {
    subject: "I morgen: {bring}, {shop}",
    text: `Hei {name},

vi venter sykkelen din i morgen.

{work}
Motorsykkel: {bike}
Kom med den: {bring}
Klar omtrent: {ready}

Ta med nøkkelen og papirene. Det hjelper med lite bensin på tanken.

Dette er tider på verkstedets klokke ({zone}).
Har det dukket opp noe, {reach}.

{shop}
{address}`,
  },
  ready: {
    subject: "{bike} er klar, {shop}",
    text: `Hei {name},

{bike} er klar: {title}.

Hva som er gjort, hva du bør følge med på de første turene og hva som skal betales, står her:
{link}

{left} av faktura {number} er ikke betalt:
{bankDetails}

{hours}

Vennligst {reach} før du kommer.

{shop}
{address}`,
  },
  invoice: {
    subject: "{shop}: {what} {number}",
    text: `{greeting}

her er {what} {number} for {purpose}: {amount}.
Forfall er {due}.

{bankDetails}

{link}

Lenken kan åpnes til {linkUntil}.

{shop}`,
  },
  receipt: {
    subject: "{shop}: {what} {number}",
    text: `{greeting}

her er {what} {number} for {purpose}: {amount}.

{link}

Lenken kan åpnes til {linkUntil}.

{shop}`,
  },
  paymentReminder: {
    subject: "{shop}: faktura {number} er ikke betalt ennå",
    text: `{greeting}

fakturaen vår {number} for {purpose} forfalt {due}. Så vidt vi kan se, er {left} av den ikke betalt ennå.

{words}

Gebyret for purring er {fee}: {asked} til sammen.

Slik betaler du:
{bankDetails}

Fakturaen og det som er betalt så langt, står her:
{link}

Har du betalt i mellomtiden, takker vi: da er det ikke mer å gjøre. Er det noe som ikke stemmer, {reach}.

{shop}
{phone}`,
  },
  depositRequest: {
    subject: "{shop}: forskudd for {title}",
    text: `Hei {name},

før vi begynner på {title}, ber vi om et forskudd på {amount}. Slik betaler du det:
{bankDetails}

Det trekkes fra på fakturaen. Anmodningen er vedlagt; arbeidet kan du følge her:
{link}

{shop}
{phone}`,
  },
  paymentReceived: {
    subject: "{shop}: vi har mottatt {amount}",
    text: `Hei {name},

vi har mottatt {amount} for {title}. Takk. Kvitteringen er vedlagt.

Arbeidet og fakturaene kan du følge her:
{link}

{shop}
{phone}`,
  },
  paidBack: {
    subject: "{shop}: {amount} går tilbake til deg",
    text: `Hei {name},

vi har betalt {amount} tilbake til deg for {title}. Bekreftelsen er vedlagt.

{link}

{shop}
{phone}`,
  },
  paymentReminder2: {
    subject: "{shop}: andre purring på faktura {number}",
    text: `{greeting}

fakturaen vår {number} for {purpose} forfalt {due}. Vi har purret på den før, og {left} av den er fortsatt ikke betalt.

{words}

Gebyret for purring er {fee}: {asked} til sammen.

Betal den i løpet av de nærmeste dagene. Slik betaler du:
{bankDetails}

Fakturaen og det som er betalt så langt, står her:
{link}

Kan du ikke betale alt nå, eller er det noe som ikke stemmer, {reach}: da finner vi en løsning.

{shop}
{phone}`,
  },
  paymentReminder3: {
    subject: "{shop}: siste purring på faktura {number}",
    text: `{greeting}

fakturaen vår {number} for {purpose} forfalt {due}. Tross purringene våre er {left} av den fortsatt ikke betalt. Dette er siste purring.

{words}

Gebyret for purring er {fee}: {asked} til sammen.

Betal den straks. Kommer det ingenting, og hører vi ikke fra deg, må vi få den inndrevet.

Slik betaler du:
{bankDetails}

Fakturaen og det som er betalt så langt, står her:
{link}

Kan du ikke betale alt nå, eller er det noe som ikke stemmer, {reach} før det.

{shop}
{phone}`,
  },
  statement: {
    subject: "{shop}: kontoutskrift til {until}",
    text: `{greeting}

kontoutskriften din fra {from} til {until} er vedlagt.

{balance}

{words}

{bankDetails}

Er det noe som ikke stemmer, {reach}.

{shop}
{phone}`,
  },
  howRuns: {
    subject: "Hvordan går {bike}?",
    text: `Hei {name},

det er en stund siden vi arbeidet på {bike}: {title}. Hvordan går den? Starter den, går den jevnt på tomgang og trekker den slik du vil ha det?

Trykk på det som passer best; ingenting sendes før du bekrefter det på siden som åpnes:
{answers}

Er det noe som ikke er som det skal, {reach}: ofte skal det bare en liten justering til. Ikke skru på skruer og ikke bytt dyser før det.

{shop}
{phone}`,
  },
};

export const letters = { en, nb } as const;
