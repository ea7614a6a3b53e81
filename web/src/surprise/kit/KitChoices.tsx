import { useState } from 'react';
import { faultText } from '../../parts/fault-text.ts';
import { ChoiceField } from '../../parts/fields.tsx';
import { DayLine, NumberLine } from '../../work-up/inputs.tsx';
import { useSlot } from '../../work-up/slot.ts';
import { useRoom, useSurprise } from '../forecast/forecasting-context.tsx';
import { getSetLists, sendSetList } from '../wire.ts';

/** What the kit is asked for: which list of sets, on which day, and how much it must answer. */
export function KitChoices() {
  const day = useSlot<string>('/kit/surgeryOn');
  const share = useSlot<number>('/kit/sharePct');
  const cost = useSlot<number>('/kit/acceptableCost');
  return (
    <div className="pairs">
      <SetListField />
      <DayLine label="Day of surgery" slot={day} />
      <NumberLine label="Openings that must have an answer" slot={share} unit="%" placeholder="99" />
      <NumberLine label="Acceptable cost of a construct" slot={cost} placeholder="default" />
    </div>
  );
}

/** Which hospital's sets; another list can be brought in as a file. */
function SetListField() {
  const lists = useRoom((s) => s.lists);
  const { room } = useSurprise();
  const list = useSlot<string>('/kit/setList');
  const [fault, setFault] = useState<string | null>(null);
  const take = async (file: File): Promise<void> => {
    setFault(null);
    try {
      const added = await sendSetList(JSON.parse(await file.text()));
      room.took({ lists: await getSetLists() });
      list.set(added.id);
    } catch (reason) {
      setFault(reason instanceof SyntaxError ? `${file.name} is no JSON. Choose a list of sets.` : faultText(reason));
    }
  };
  return (
    <div className="set-list-field">
      <ChoiceField
        label="List of sets"
        field="/kit/setList"
        none="none chosen"
        options={(lists ?? []).map((l) => [l.id, l.invented ? `${l.name} (invented)` : l.name])}
      />
      <label className="as-link">
        Take over a list (JSON)
        <input
          type="file"
          accept=".json,application/json"
          className="unseen"
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file) void take(file);
            event.target.value = '';
          }}
        />
      </label>
      {fault && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
    </div>
  );
}
