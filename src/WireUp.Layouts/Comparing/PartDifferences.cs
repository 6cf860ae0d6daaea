using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Comparing;

/// <summary>Compares the parts of one kind.</summary>
internal static class PartDifferences
{
    private const string Path = "path";

    /// <summary>The differences: what is gone in the order of the earlier file, then the rest in the order of the later one.</summary>
    public static IEnumerable<LayoutDifference> Of(LayoutPart kind, ImmutableArray<Part> before, ImmutableArray<Part> after)
    {
        Dictionary<string, Part> was = before.ToDictionary(part => part.Key, StringComparer.Ordinal);
        HashSet<string> isThere = [.. after.Select(part => part.Key)];
        Part[] gone = [.. before.Where(part => !isThere.Contains(part.Key))];
        Dictionary<string, Part> renamed = Renamed(gone, [.. after.Where(part => !was.ContainsKey(part.Key))]);
        HashSet<Part> kept = [.. renamed.Values];
        foreach (Part part in gone.Where(part => !kept.Contains(part)))
        {
            yield return Difference(kind, DifferenceKind.Removed, part) with { Before = Words(part.Text) };
        }

        foreach (Part part in after)
        {
            if (was.TryGetValue(part.Key, out Part? old))
            {
                if (old.Text.Flow != part.Text.Flow)
                {
                    yield return Changed(kind, old, part);
                }
            }
            else if (renamed.TryGetValue(part.Key, out Part? same))
            {
                yield return Difference(kind, DifferenceKind.Renamed, part) with { Before = same.Name, After = part.Name };
            }
            else
            {
                yield return Difference(kind, DifferenceKind.Added, part) with { After = Words(part.Text) };
            }
        }
    }

    /// <summary>Of parts that may be renamed, those of which exactly one on each side says the same, by their later key.</summary>
    private static Dictionary<string, Part> Renamed(IEnumerable<Part> gone, IEnumerable<Part> fresh)
    {
        ILookup<string, Part> old = gone.Where(part => part.CanBeRenamed).ToLookup(part => part.Text.Flow);
        return fresh.GroupBy(part => part.Text.Flow)
            .Where(alike => alike.Count() == 1 && old[alike.Key].Count() == 1)
            .ToDictionary(alike => alike.Single().Key, alike => old[alike.Key].Single());
    }

    private static LayoutDifference Changed(LayoutPart kind, Part old, Part now)
    {
        bool moves = kind == LayoutPart.Feeder && old.At != now.At;
        (string before, string after) = Differing(old.Text, now.Text);
        return Difference(kind, moves ? DifferenceKind.Moved : DifferenceKind.Changed, now) with
        {
            Before = before,
            After = after,
            AtBefore = moves ? old.At : null,
        };
    }

    private static LayoutDifference Difference(LayoutPart kind, DifferenceKind how, Part part) => new(kind, how, part.Name) { Piece = part.Piece, At = part.At };

    /// <summary>The entries that differ; nested ones by themselves. What one side does not say is told as a dash.</summary>
    private static (string Before, string After) Differing(Snippet.Map old, Snippet.Map now)
    {
        Dictionary<string, Snippet> was = old.Entries.ToDictionary(entry => entry.Key, entry => entry.Value);
        Dictionary<string, Snippet> isNow = now.Entries.ToDictionary(entry => entry.Key, entry => entry.Value);
        List<(string Before, string After)> parts = [];
        foreach (string key in old.Entries.Concat(now.Entries).Select(entry => entry.Key).Distinct())
        {
            (Snippet? one, Snippet? other) = (was.GetValueOrDefault(key), isNow.GetValueOrDefault(key));
            if (one?.Flow != other?.Flow)
            {
                (string before, string after) = one is Snippet.Map map && other is Snippet.Map mapNow
                    ? Differing(map, mapNow)
                    : (one?.Flow ?? "–", other?.Flow ?? "–");
                parts.Add((Entry(key, before), key == Path && other is not null ? $"{Entry(key, after)}, drawn anew" : Entry(key, after)));
            }
        }

        return (string.Join(", ", parts.Select(part => part.Before)), string.Join(", ", parts.Select(part => part.After)));
    }

    private static string Words(Snippet.Map text) => string.Join(", ", text.Entries.Select(entry => Entry(entry.Key, entry.Value.Flow)));

    /// <summary>A key with its value; a drawn path is only counted.</summary>
    private static string Entry(string key, string value) => key switch
    {
        "" => value,
        Path when value.StartsWith('[') => string.Create(CultureInfo.InvariantCulture, $"{key}: {value.Count(letter => letter == '[') - 1} points"),
        _ => $"{key}: {value}",
    };
}
