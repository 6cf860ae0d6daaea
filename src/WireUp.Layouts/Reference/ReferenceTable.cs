using System.Collections.Immutable;
using System.Globalization;
using Sylvan.Data.Csv;

namespace WireUp.Layouts.Reference;

/// <summary>Reads a table of the repository's <c>shared</c> folder, which is built into this assembly.</summary>
internal static class ReferenceTable
{
    /// <summary>Every row of the table of that file name, in the order of the file.</summary>
    internal static ImmutableArray<ReferenceRow> Read(string fileName)
    {
        using Stream stream = typeof(ReferenceTable).Assembly.GetManifestResourceStream($"shared/{fileName}")
            ?? throw new InvalidOperationException($"reference table '{fileName}' is not built in");
        using StreamReader text = new(stream);
        using CsvDataReader csv = CsvDataReader.Create(text, new CsvDataReaderOptions { Culture = CultureInfo.InvariantCulture });
        string[] columns = [.. Enumerable.Range(0, csv.FieldCount).Select(csv.GetName)];
        ImmutableArray<ReferenceRow>.Builder rows = ImmutableArray.CreateBuilder<ReferenceRow>();
        while (csv.Read())
        {
            rows.Add(new([.. columns.Select((name, i) => KeyValuePair.Create(name, csv.GetString(i)))]));
        }

        return rows.ToImmutable();
    }

    /// <summary>The rows of a table of named values with their units.</summary>
    internal static ImmutableArray<ReferenceValue> Values(string fileName) =>
        [.. Read(fileName).Select(row => new ReferenceValue(row.Text("name"), row.Number("value"), row.Text("unit"), row.Standing, row.Source))];
}

/// <summary>One row of a reference table.</summary>
internal sealed class ReferenceRow(ImmutableArray<KeyValuePair<string, string>> cells)
{
    internal Standing Standing => Standings.Parse(Text("standing"));

    internal string Source => Text("source");

    internal string Text(string column)
    {
        foreach ((string name, string value) in cells)
        {
            if (name == column)
            {
                return value;
            }
        }

        throw new KeyNotFoundException($"the reference table has no column '{column}'");
    }

    internal double Number(string column) => double.Parse(Text(column), NumberStyles.Float, CultureInfo.InvariantCulture);

    internal double? OptionalNumber(string column) => Text(column).Length == 0 ? null : Number(column);
}
