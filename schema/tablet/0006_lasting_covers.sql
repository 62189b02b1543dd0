-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- Which runs there are, and which of them are over, is told by the index alone: a tablet of ten years begins without
-- looking at the set-up of every run.
DROP INDEX lasting_entries;
CREATE INDEX lasting_entries ON entries (position, kind, run_id, device_id) WHERE kind NOT IN
    ('reading-logged', 'signs-seen', 'noted', 'question-answered', 'alert-raised', 'alert-cleared', 'alert-serviced',
     'alert-acknowledged', 'alert-shelved', 'check-answered', 'start-told');
