/** What a field of words decides, by the name the document gives it; of a number the document says itself why it is bounded. */
const byTitle: Readonly<Record<string, string>> = {
  'Job name': 'Stands on every sheet and in the list of jobs.',
  Client: 'Stands in the title block.',
  Place: 'Where the piece is built in; stands in the title block.',
  Maker: 'Your workshop; stands in the title block.',
  'Drawn by': 'Stands in the title block.',
  'Document number': 'Your own number; stands on every sheet and begins the names of files.',
  Revision: 'The letter under which the papers are issued next.',
  Date: 'Stands in the title block.',
  'Mark of the panel': 'Short, such as P1; it stands on the drawing.',
  'Name of the panel': 'As the workshop calls it.',
  'Joined to the panel before': 'In line, or at a corner, which cables go round.',
  Opening: 'What it is, such as a door or a window.',
  'Slot direction': 'Upright slots are numbered from the left, level ones from the bottom.',
  'Slots aligned at': 'Which ends lie on one line.',
  'Backing material': 'Decides how heat leaves behind, and how warm it may get.',
  'Front material': 'Decides how heat leaves to the room, and how warm it may get.',
  'Slot cover': 'What closes the slot decides brightness, hot spots and heat.',
  'Strip position': 'Where the strip sits decides what is seen of it and how its heat leaves.',
  'Aluminium under the strip': 'Spreads the heat of the strip and lowers its temperature.',
  Profile: 'The aluminium the strip lies in, from the catalogue or your own.',
  'Profile name': 'As its maker calls it.',
  'Cover of the profile': 'An opal cover hides the LEDs and takes light.',
  'Own cover of the profile': 'A cover you have entered yourself.',
  'Profile fixed by': 'What lies between profile and timber decides how heat leaves it.',
  'Behind the backing': 'Insulation lets no heat out that way; a wall with a room behind it does.',
  'Finish of the backing': 'White gives light back, dark takes it.',
  'Finish of the cavity sides': 'White gives light back, dark takes it.',
  'Finish of the inner face of the front': 'White gives light back, dark takes it.',
  'Strip from the catalogue': 'A strip typical of the trade; what its data sheet says otherwise goes below.',
  'Strip name': 'As it is ordered.',
  'Strip voltage': 'That of the drivers has to be the same.',
  'Current of the strip set by': 'A resistor passes less at fewer volts, a regulator keeps the current.',
  'Channel name': 'Such as warm white; it stands on cores and terminals.',
  'Strip along the slot': 'Where the part is that no whole cut unit fills.',
  'Feed arrangement': 'Where cables meet a run decides how even it is lit.',
  'Cable from the catalogue': 'A thicker one loses fewer volts and carries more.',
  'Trunk cable from the catalogue': 'What the trunk is made of; the same as the others where none is chosen.',
  'Cable name': 'As it is ordered.',
  'Cable layout': 'A cable to each slot, one trunk with taps, a ring, or on from run to run.',
  'Cable way': 'Along which edge of the piece the cables run.',
  Fuses: 'What stands in the ways of a distribution block.',
  'Driver from the catalogue':
    'A driver typical of the trade; what its data sheet says otherwise goes below.',
  'Driver name': 'As it is ordered.',
  'Driver voltage': 'That of the strip has to be the same.',
  'All outputs are dimmed together': 'Whether one signal dims every output of the driver.',
  'How it dims itself': 'What signal the driver takes, if it dims at all.',
  'Driver place': 'As the electrician is to find it on the drawing.',
  'Kind of driver place': 'A box drawn on or beside the piece, or somewhere else at the end of a cable.',
  'Within reach once the wall is closed': 'What stands there has to be got at to be changed or measured.',
  'Output terminals face': 'Which side the cables to the strip leave by.',
  'Vented to the room': 'Openings low and high let warm air out.',
  'Dimmed by': 'Decides what stands behind the drivers and how low the light goes.',
  'Dimmer from the catalogue':
    'A dimmer typical of the trade; what its data sheet says otherwise goes below.',
  'Dimmer name': 'As it is ordered.',
  'Lowest voltage of the dimmer': 'From its data sheet.',
  'Highest voltage of the dimmer': 'From its data sheet.',
  'Controlled by': 'The signal the dimmer takes.',
  'Sized for': 'Full, unless whoever commissions the wall limits the dimmer for good.',
  'Zone id': 'What the zone is known by in the job.',
  'Zone name': 'What is dimmed together, as people call it.',
  'Cable layout of the zone': 'As the wall, unless this zone is wired otherwise.',
  'Cable way of the zone': 'As the wall, unless this zone is wired along another edge.',
  'Name of the slots in no zone': 'What the rest of the wall is called.',
  'Place in the room': 'Such as a table or a seat, where light is wanted.',
  'Light falls on': 'A level face such as a table, or an upright one such as a picture.',
  'Rules of the country': 'Which wiring rules the papers name; an electrician decides by them.',
  'Note for the electrician': 'Printed on the cover, in your own words.',
  'Circuit-breaker type': 'How large a switch-on surge it rides through: B the smallest, D the largest.',
  'How people meet the front': 'Decides how warm it may get.',
  'What the prices are': 'Whose prices, of when, in which currency.',
  'Product of a price': 'What kind of product the price is of.',
  'Entry of a price': 'Which entry of the catalogue the price is of.',
  'Id of an own product': 'What the product is known by in the job.',
  'Currency of its price': 'Such as EUR.',
  'Source of its data': 'Where the figures are from, such as the data sheet and its number.',
  'Date of its data': 'Of the sheet the figures are from.',
  'Cover name': 'As its maker calls it.',
  'Look of the cover': 'Opal spreads the light, frosted spreads some of it, clear none.',
};

/** A clause as a sentence. */
const asSentence = (clause: string): string =>
  `${clause.charAt(0).toUpperCase()}${clause.slice(1)}${/[.!?]$/.test(clause) ? '' : '.'}`;

/** The one sentence that helps with a field: what the document says of its bounds, else what the field decides. */
export function fieldHelp({
  title,
  why,
}: {
  readonly title: string;
  readonly why: string;
}): string | undefined {
  if (why !== '') return asSentence(why);
  return byTitle[title];
}
