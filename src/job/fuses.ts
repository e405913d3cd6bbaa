/** Kinds of device that may protect a cable; a job chooses one. */
export const fuseKinds = ['cartridge', 'blade', 'electronic'] as const;

/** What the electrician has to see to before a kind is used. */
export const fuseRemarks: Readonly<Record<(typeof fuseKinds)[number], string>> = {
  cartridge:
    'IEC 60127 is written for fuses inside equipment: the holder has to be made for it, and its direct-current rating is on the maker’s sheet. Marked L it breaks 35 A or ten times its rating, marked H 1,500 A.',
  blade:
    'ISO 8820-3 is written for road vehicles: the electrician decides whether such a fuse is accepted in a building.',
  electronic:
    'No one standard says when an electronic channel opens: take setting, tripping and voltage from its maker’s sheet, and seal the setting once it is made.',
};
