-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- Finds what runs, carts, tanks and the stock are judged by without going through every reading of every year.
CREATE INDEX lasting_entries ON entries (position) WHERE kind NOT IN
    ('reading-logged', 'signs-seen', 'noted', 'question-answered', 'alert-raised', 'alert-cleared', 'alert-serviced',
     'alert-acknowledged', 'alert-shelved', 'check-answered', 'start-told');
