"""The ground floor: pure Python that knows no kit row, no request, no template."""
