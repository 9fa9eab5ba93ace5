"""The model: item, kind, plan, edit, document. No kind is named here."""
