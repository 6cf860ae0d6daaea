using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>
/// Everything in a layout file, beside the track and the chains, that names a piece, an end or a place; and how it reads after a change.
/// The places of the layout as it was read say where things are: the n-th gap of the text is the n-th gap of the layout.
/// </summary>
internal sealed class ReferenceEdits(Layout before, TrackChange change)
{
    private readonly LayoutIndex _index = new(before);

    /// <summary>The edits of values that change in place.</summary>
    public IEnumerable<TextEdit> Replacements(TextNode root) =>
        [.. Joints(root), .. Places(root), .. Gaps(root), .. Settings(root), .. Lists(root).SelectMany(Renamed)];

    /// <summary>Entries and items whose piece or joint is gone: the parent and the child to take out of it, one after the other.</summary>
    public (TextNode Parent, object Child)? FirstGone(TextNode root)
    {
        foreach (TextEntry feeder in Entries(root, "wiring", "feeders").Where(feeder => Text(feeder.Value, "at") is { } at && IsGone(PieceOf(at.Value))))
        {
            return (Value(root, "wiring", "feeders")!, feeder);
        }

        foreach (TextEntry booster in Entries(root, "wiring", "boosters").Where(booster => Text(booster.Value, "beside") is { } at && IsGone(PieceOf(at.Value))))
        {
            return (booster.Value, ((TextNode.Mapping)booster.Value).Entries.First(entry => entry.Key.Value == "beside"));
        }

        foreach (TextNode gap in Items(Value(root, "wiring", "gaps")).Where(gap => Text(gap, "at") is { } at && (IsGone(PieceOf(at.Value)) || (AnEndNow(at.Value) && IsUnjoined(at.Value)))))
        {
            return (Value(root, "wiring", "gaps")!, gap);
        }

        foreach (TextEntry joint in Entries(root, "joints").Where(joint => IsGone(PieceOf(joint.Key.Value)) || IsUnjoined(joint.Key.Value)))
        {
            return (Value(root, "joints")!, joint);
        }

        foreach (TextNode.Sequence list in Lists(root))
        {
            if (list.Items.OfType<TextNode.Scalar>().FirstOrDefault(item => change.Removed.Contains(new(item.Value))) is { } gone)
            {
                return (list, gone);
            }
        }

        return null;
    }

    private bool IsGone(string piece) => change.Removed.Contains(new(piece));

    private static bool AnEndNow(string text) => text.Contains('.', StringComparison.Ordinal) && !text.Contains('@', StringComparison.Ordinal);

    /// <summary>Whether a described joint was taken apart and nothing else is joined to its end.</summary>
    private bool IsUnjoined(string end)
    {
        int dot = end.IndexOf('.', StringComparison.Ordinal);
        TrackEnd now = new(new(end[..dot]), end[(dot + 1)..]);
        return !change.Joined.Any(joint => joint.First == now || joint.Second == now)
            && !before.Joints.Any(joint => !change.Parted.Contains(joint.First) && !change.Parted.Contains(joint.Second)
                && change.EndOf(joint.First) is { } first && change.EndOf(joint.Second) is { } second && (first == now || second == now));
    }

    private IEnumerable<TextEdit> Joints(TextNode root)
    {
        foreach (TextEntry joint in Entries(root, "joints"))
        {
            if (AnEnd(joint.Key.Value) is { } end && change.EndOf(end) is { } now && now != end)
            {
                yield return NodeEdits.Replace(joint.Key, ScalarText.Write(now.ToString()));
            }
        }
    }

    private IEnumerable<TextEdit> Places(TextNode root)
    {
        foreach (TextEntry feeder in Entries(root, "wiring", "feeders"))
        {
            if (Text(feeder.Value, "at") is { } at && before.Wiring.Feeders.FirstOrDefault(each => each.Name == feeder.Key.Value) is { } wired)
            {
                foreach (TextEdit edit in Moved(at, wired.At)) yield return edit;
            }
        }

        foreach (TextEntry booster in Entries(root, "wiring", "boosters"))
        {
            if (Text(booster.Value, "beside") is { } at && before.Wiring.Boosters.FirstOrDefault(each => each.Name == booster.Key.Value)?.Beside is { } place)
            {
                foreach (TextEdit edit in Moved(at, place)) yield return edit;
            }
        }
    }

    private IEnumerable<TextEdit> Moved(TextNode.Scalar written, TrackPlace place)
    {
        if (NewPlace(place) is { } now && FromSameEnd(written.Value, place, now) is var text && text != written.Value)
        {
            yield return NodeEdits.Replace(written, text);
        }
    }

    /// <summary>The text of a place. One counted from end b stays so counted where the rest of its section up to that end is as it was.</summary>
    private string FromSameEnd(string written, TrackPlace place, TrackPlace now)
    {
        string distance = written[(written.IndexOf('@', StringComparison.Ordinal) + 1)..].Trim();
        if (!change.Stretches.TryGetValue(place.Section, out ImmutableArray<Stretch> parts))
        {
            return now == place ? written : $"{now.Section}@{distance}";
        }

        Stretch last = parts[^1];
        bool fromEnd = distance.StartsWith('-');
        bool isSame = fromEnd ? !last.GoesOn && last.Piece == now.Section && place.MetresFromA > last.From && Math.Abs(last.To - last.From - last.LengthMetres) < 1e-9 : now.MetresFromA == place.MetresFromA;
        return isSame && now.Section == place.Section ? written : $"{now.Section}@{(isSame ? distance : LengthText.Write(now.MetresFromA))}";
    }

    private TrackPlace? NewPlace(TrackPlace place)
    {
        if (change.Removed.Contains(place.Section))
        {
            return null;
        }

        return change.Stretches.TryGetValue(place.Section, out ImmutableArray<Stretch> parts)
            ? parts.MinBy(part => Math.Max(part.From - place.MetresFromA, place.MetresFromA - part.To) is var off && off > 0 ? off : 0)!.At(place.MetresFromA)
            : place with { Section = change.NameOf(place.Section) };
    }

    private IEnumerable<TextEdit> Gaps(TextNode root)
    {
        ImmutableArray<TextNode> written = Items(Value(root, "wiring", "gaps"));
        for (int i = 0; i < Math.Min(written.Length, before.Wiring.Gaps.Length); i++)
        {
            if (Text(written[i], "at") is not { } at)
            {
                continue;
            }

            switch (before.Wiring.Gaps[i].At)
            {
                case GapPlace.InJoint joint when change.EndOf(joint.End) is { } end && end != joint.End:
                    yield return NodeEdits.Replace(at, ScalarText.Write(end.ToString()));
                    break;
                case GapPlace.InSection within when InCut(within.Place) is { } end:
                    yield return NodeEdits.Replace(at, ScalarText.Write(end.ToString()));
                    break;
                case GapPlace.InSection within:
                    foreach (TextEdit edit in Moved(at, within.Place)) yield return edit;
                    break;
            }
        }
    }

    /// <summary>
    /// A gap where a section is cut is in the joint there. Its rails are seen from a to b, and so is the joint: out of the end b before the cut,
    /// or where the cut begins at the end a, out of what the section is joined to there.
    /// </summary>
    private TrackEnd? InCut(TrackPlace place)
    {
        if (!change.Stretches.TryGetValue(place.Section, out ImmutableArray<Stretch> parts))
        {
            return null;
        }

        if (parts.Where((part, i) => place.MetresFromA >= part.To && (i == parts.Length - 1 || place.MetresFromA <= parts[i + 1].From)).FirstOrDefault() is { } before)
        {
            return new TrackEnd(before.Piece, "b");
        }

        TrackEnd first = new(parts[0].Piece, "a");
        return place.MetresFromA <= parts[0].From && change.Joined.FirstOrDefault(joint => joint.Second == first) is { First.Name: not null } joined ? joined.First : null;
    }

    private IEnumerable<TextEdit> Settings(TextNode root)
    {
        IEnumerable<TextNode.Scalar> settings = Entries(root, "wiring", "feeders").Select(feeder => Text(feeder.Value, "when"))
            .Concat(Items(Value(root, "wiring", "gaps")).Select(gap => Text(gap, "bridged-when"))).OfType<TextNode.Scalar>();
        foreach (TextNode.Scalar setting in settings)
        {
            PieceId owner = new(PieceOf(setting.Value));
            if (_index.FindPiece(owner) is not null && change.NameOf(owner) != owner)
            {
                yield return NodeEdits.Replace(setting, change.NameOf(owner) + setting.Value[owner.Name.Length..]);
            }
        }
    }

    private IEnumerable<TextEdit> Renamed(TextNode.Sequence list)
    {
        foreach (TextNode.Scalar item in list.Items.OfType<TextNode.Scalar>())
        {
            PieceId old = new(item.Value);
            ImmutableArray<PieceId> parts = change.PartsOf(old);
            if (parts.Length == 1 && parts[0] != old)
            {
                yield return NodeEdits.Replace(item, ScalarText.Write(parts[0].Name));
            }
            else if (parts.Length > 1)
            {
                yield return NodeEdits.Replace(item, IsTrackOfApart(list)
                    ? $"[{string.Join(", ", parts.Select(part => ScalarText.Write(part.Name)))}]"
                    : list.IsFlow ? string.Join(", ", parts.Select(part => ScalarText.Write(part.Name)))
                    : string.Join($"\n{new string(' ', list.Start.Column - 1)}- ", parts.Select(part => ScalarText.Write(part.Name))));
            }
        }
    }

    private readonly HashSet<TextNode> _apart = new(ReferenceEqualityComparer.Instance);

    private bool IsTrackOfApart(TextNode.Sequence list) => _apart.Contains(list);

    /// <summary>Every list of names of pieces.</summary>
    private IEnumerable<TextNode.Sequence> Lists(TextNode root)
    {
        List<TextNode?> lists = [.. Entries(root, "spots").Select(entry => entry.Value), .. Entries(root, "districts-wanted").Select(entry => entry.Value),
            Value(root, "wishes", "blocks", "track")];
        foreach (TextNode.Sequence tracks in Items(Value(root, "wishes", "apart")).OfType<TextNode.Sequence>())
        {
            _apart.Add(tracks);
            lists.Add(tracks);
            lists.AddRange(tracks.Items.OfType<TextNode.Sequence>());
        }

        return lists.OfType<TextNode.Sequence>();
    }

    private TrackEnd? AnEnd(string text)
    {
        int dot = text.IndexOf('.', StringComparison.Ordinal);
        return dot > 0 && _index.FindPiece(new(text[..dot])) is not null ? new TrackEnd(new(text[..dot]), text[(dot + 1)..]) : null;
    }

    private static string PieceOf(string text) => text[..(text.IndexOfAny(['@', '.']) is var end && end >= 0 ? end : text.Length)].Trim();

    private static TextNode.Scalar? Text(TextNode node, string key) => Value(node, key) as TextNode.Scalar;

    private static IEnumerable<TextEntry> Entries(TextNode root, params ReadOnlySpan<string> path) => (Value(root, path) as TextNode.Mapping)?.Entries ?? [];

    private static ImmutableArray<TextNode> Items(TextNode? node) => (node as TextNode.Sequence)?.Items ?? [];

    private static TextNode? Value(TextNode? node, params ReadOnlySpan<string> path)
    {
        foreach (string key in path)
        {
            node = (node as TextNode.Mapping)?.Entries.FirstOrDefault(entry => entry.Key.Value == key)?.Value;
        }

        return node;
    }
}
