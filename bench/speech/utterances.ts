/**
 * What people might say into a voice note, with the question that is open. Lines at even places (from 0) are for
 * tuning, lines at odd places are only scored. Invented, from memory of how people talk; no source.
 */
export interface Utterance {
  said: string;
  /** Id of the open question, or "-". */
  asked: string;
}

const of = (asked: string, ...said: string[]): Utterance[] => said.map((text) => ({ said: text, asked }));

export const UTTERANCES: readonly Utterance[] = [
  ...of(
    'filter-pressure',
    'twenty two psi',
    'sixteen psi',
    'filter twenty two vacuum nine',
    'fourteen',
    'it is eighteen psi',
    'twenty five pounds',
    'the gauge says thirty one',
    'it says twelve psi',
    'eight psi',
    'ten and a half psi',
    'filter pressure nineteen psi',
    'filter thirteen vacuum seven',
    'one point two bar',
    'zero point nine bar',
    'one hundred and ten kilopascals',
    'thirty four psi',
    'between eight and twelve',
    'between ten and fourteen psi',
    'was thirteen now twenty four',
    'it was fifteen now twenty eight',
    'zero',
    'twenty seven',
    'no gauge',
    "i don't have a gauge",
    'forty psi',
    'fifty psi',
    'about twenty psi',
    'filter is at twenty one psi and vacuum is nine inches',
    'twenty nine psi',
    'eleven psi',
  ),
  ...of(
    'pump-vacuum',
    'nine inches',
    'seven inches of mercury',
    'vacuum eleven',
    'vacuum is eight inches',
    'twelve inches',
    'four and a half inches',
    'six',
    'fifteen inches of vacuum',
    'pump vacuum ten filter twenty',
    'twenty inches',
    'thirty kilopascals',
    'three inches',
  ),
  ...of(
    'cleaner-suction',
    'two point five',
    'cleaner suction three inches',
    'three and a half inches',
    'no tester',
    'it says two inches',
    'four',
  ),
  ...of(
    'wheel-turns',
    'thirty turns a minute',
    'twenty eight turns',
    'thirty one',
    'it has no wheels',
    'wheel turns twenty six',
    'eighteen turns per minute',
  ),
  ...of(
    'read-back',
    'no fourteen',
    'no it is seventeen psi',
    'yes',
    'sorry eighteen',
    'yes it is',
    'no twenty six psi',
  ),
  ...of('pump-running', 'it is running', 'it only hums', 'it is silent', 'its breaker trips'),
  ...of('skimmer-look', 'basket full', 'all looks fine', 'plate loose', 'door stuck'),
  ...of('pump-lid-look', 'half empty', 'full of water', 'i see bubbles', 'i cannot see in'),
  ...of('return-flow', 'strong flow', 'weak flow', 'dirt comes out', 'bubbles'),
  ...of('movement-pattern', 'stays in one area', 'moves slowly', 'stands still', 'goes in circles'),
  ...of('cleaner-throat', 'it is clear', 'something is stuck', 'it is blocked', 'clear'),
  ...of('strainer-basket', 'it is full', 'clear and whole', 'cracked', 'it is cracked'),
  ...of('valve-handles', 'as usual', "cleaner's handle moved", 'others open wide', 'one was moved'),
  ...of('hose-off-test', 'it recovers', 'still poor', 'no change', 'nothing changed'),
  ...of('plugs-and-unions', 'one drips', 'it is sucking air', 'one sucks in air', 'all dry'),
  ...of('filter-last-cleaned', 'recently', 'a long time ago', 'it is overdue', 'months ago'),
  ...of('repair', 'yes it runs now', 'it works now', 'still the same', 'done still not right'),
  ...of('caution', 'i have done that', 'all done', 'understood', 'i understand'),
  ...of('canister', 'yes', 'no', 'yes there is', "no there isn't"),
  ...of(
    'water-level',
    'go back',
    'say again',
    'help me',
    'skip it',
    'next question',
    'not sure',
    'stop now',
    'repeat that',
  ),
  ...of('robot-lights', 'i got a shock', 'there is smoke', 'somebody is hurt', 'i smell gas'),
];

/** Nothing that the bot could act on. */
export const UNRELATED: readonly string[] = `
the weather will be lovely tomorrow afternoon
can you bring some sandwiches for lunch
my sister lives near the old railway station
we should paint the fence before the winter
did you watch the football game last night
the dog chased a rabbit across the garden
please put the ladder back in the garage
i left my phone on the kitchen table
the traffic on the bridge was terrible today
she plays the violin in a small orchestra
remember to lock the gate when you leave
our neighbours are moving to another city
the coffee machine makes a strange noise
he wants to learn how to sail a boat
there is a new bakery around the corner
the children are painting with water colours
who ordered a pizza with mushrooms
the meeting was moved to thursday morning
i have to renew my driving licence
her grandmother makes the best apple pie
turn left after the second roundabout
the library closes early on saturdays
we ran out of milk and bread
the printer is out of paper again
they planted three oak trees on the hill
his new car is faster than mine
a storm is coming from the west
the radio plays nothing but old songs
could you call the office for me
the museum has a wonderful exhibition
i cannot find my reading glasses
the cat is sleeping on the sofa
our flight leaves at a quarter past six
the tomatoes need more sun this year
my brother works in a hospital
we had soup and salad for dinner
the bus was twenty minutes late
nobody told me about the party
the carpet in the hall is very dusty
she wrote a letter to the editor
let us go for a walk along the river
the lamp in the corner is too bright
they sell fresh fish at the market
the shop was closed because of a holiday
i would like a window seat please
the teacher explained the lesson twice
my shoes are still wet from the rain
the mountain was covered with snow
he forgot his wallet at the restaurant
the baby started to walk last month
we are looking for a bigger apartment
the movie was longer than i expected
the gardener comes every other friday
she bought a blue dress for the wedding
the lawn mower needs new spark plugs
i usually drink tea in the morning
the postman brought a large parcel
he is reading a book about ancient rome
the roof of the shed leaks a little paint
we spent the summer with our cousins
the phone has been ringing all day
a stranger asked me for directions
the cake needs another hour in the oven
they are building a new school here
my favourite colour has always been green
the train to the coast was crowded
you should see a doctor about that knee
the ceiling fan turns much too fast
the invoice was paid last tuesday
i want to plant roses by the door
he told a funny story about his uncle
the computer needs a new keyboard
her voice sounds like a radio host
the kids want to play hide and seek
the bridge will be closed for repairs
we met at a concert ten years ago
the soup tastes better with fresh herbs
a bird built a nest in the chimney
the elevator is stuck on the fifth floor
i have never been to the opera
the farmer sells eggs by the road
she can speak four different languages
it takes an hour to drive downtown
the guests will arrive around noon
the picture on the wall is crooked
he lost his umbrella in the subway
the newspaper was lying on the porch
my neighbour has a very loud stereo
they went fishing early this morning
the bathroom tiles look brand new
the candle burned down to the end
we need two more chairs for the table
the engine of the truck would not start
an old friend visited me yesterday evening
the river is too cold for swimming
please send me the photographs by email
the alarm clock rang at half past five
the curtains do not match the furniture
she is afraid of spiders and snakes
the waiter brought the wrong order
our team won the championship again
the sky turned red over the ocean
he cooked spaghetti for the whole family
the parking ticket cost a fortune`
  .trim()
  .split('\n');
