using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>joined:</c> (which ends meet) and <c>joints:</c> (how, where it differs from the default).</summary>
internal sealed class JoinedReader(ReadContext context, PieceTable pieces)
{
    private const string ChainExpected = "a chain such as T1.through > loop > T1.diverging";

    private readonly JoinedTrack _joined = new();

    public JoinedTrack Read(MapReader root, LayoutDefaults defaults)
    {
        foreach (TextNode node in root.List("joined", "a list of chains"))
        {
            if (node is TextNode.Scalar { IsNull: false } chain)
            {
                ReadChain(ChainText.Split(chain), chain, defaults.Joint);
            }
            else
            {
                context.WrongShape(node, "a chain", ChainExpected);
                _joined.MarkPartial();
            }
        }

        HashSet<Joint> described = new(ReferenceEqualityComparer.Instance);
        foreach (TextEntry entry in root.Named("joints", "a mapping of joints by one of their ends"))
        {
            ReadJoint(entry, described);
        }

        return _joined;
    }

    private void ReadChain(ImmutableArray<ChainPart> parts, TextNode.Scalar chain, JointKind kind)
    {
        if (parts.Length < 2 || parts.Any(part => part.Text.Length == 0))
        {
            ChainPart hole = parts.FirstOrDefault(part => part.Text.Length == 0, parts[0]);
            context.Add(LayoutRules.UnclearChain, hole.At, chain.Value, "a chain joins two pieces or more", ChainExpected);
            _joined.MarkPartial();
            return;
        }

        TrackEnd? from = TipEnd(parts[0], leaving: true);
        for (int i = 1; i < parts.Length; i++)
        {
            (TrackEnd? entered, TrackEnd? left) = i == parts.Length - 1 ? (TipEnd(parts[i], leaving: false), null) : Passed(parts[i]);
            Join(from, entered, parts[i], kind);
            from = left;
        }
    }

    /// <summary>The end of the piece at a tip that the chain joins: the named one, or of a section b at the beginning and a at the end.</summary>
    private TrackEnd? TipEnd(ChainPart part, bool leaving)
    {
        if (part.Text.Contains('.', StringComparison.Ordinal))
        {
            return pieces.FindEnd(part.Text, part.At, context);
        }

        if (!pieces.Find(part.Text, part.At, context, out Piece? piece) || piece is null)
        {
            return null;
        }

        switch (piece)
        {
            case Piece.Section:
                return piece.End(leaving ? "b" : "a");
            case Piece.Stop:
                return piece.End("a");
            default:
                context.Add(LayoutRules.UnclearChain, part.At, part.Text, $"the chain does not say which end of \"{part.Text}\" is joined",
                    PieceTable.EndWords(piece, $"{part.Text}."));
                return null;
        }
    }

    /// <summary>The ends by which a chain enters and leaves a piece inside it: only sections can be passed.</summary>
    private (TrackEnd? Entered, TrackEnd? Left) Passed(ChainPart part)
    {
        int dot = part.Text.IndexOf('.', StringComparison.Ordinal);
        string name = dot < 0 ? part.Text : part.Text[..dot];
        if (!pieces.Find(name, part.At, context, out Piece? piece) || piece is null)
        {
            return (null, null);
        }

        if (piece is Piece.Section && dot < 0)
        {
            return (piece.End("a"), piece.End("b"));
        }

        string why = dot >= 0 ? "an end is named only at the tips of a chain" : $"\"{name}\" is not a section and cannot be passed within a chain";
        string end = dot >= 0 && piece.EndNames.Contains(part.Text[(dot + 1)..]) ? part.Text : piece.Ends.First().ToString();
        string right = piece is Piece.Stop
            ? "the chain ended here"
            : $"the chain broken in two here, with the end named in both parts: \"… > {end}\" and \"{piece.Ends.First(other => other.ToString() != end)} > …\"";
        context.Add(LayoutRules.UnclearChain, part.At, part.Text, why, right);
        return (null, null);
    }

    private void Join(TrackEnd? from, TrackEnd? to, ChainPart at, JointKind kind)
    {
        if (from is not { } first || to is not { } second)
        {
            _joined.MarkPartial();
            return;
        }

        if (first == second)
        {
            context.Add(LayoutRules.EndJoinedTwice, at.At, at.Text, $"the end {first} is joined to itself", "another end");
            return;
        }

        if ((_joined.At(first) is not null ? first : _joined.At(second) is not null ? second : (TrackEnd?)null) is { } taken)
        {
            Joint old = _joined.At(taken)!;
            context.Add(LayoutRules.EndJoinedTwice, at.At, at.Text,
                $"the end {taken} is joined already, to {(old.First == taken ? old.Second : old.First)}", "an end that is still open");
            return;
        }

        _joined.Add(new Joint(first, second) { Kind = kind });
    }

    private void ReadJoint(TextEntry entry, HashSet<Joint> described)
    {
        if (pieces.FindEnd(entry.Key.Value, entry.Key.Start, context) is not { } end)
        {
            return;
        }

        if (_joined.At(end) is not { } joint)
        {
            if (!_joined.IsPartial)
            {
                context.Add(LayoutRules.OpenEnd, entry.Key.Start, entry.Key.Value, $"the end {end} is not joined to anything",
                    "an end that is joined under \"joined\"");
            }

            return;
        }

        if (described.Contains(joint))
        {
            context.Add(LayoutRules.DescribedTwice, entry.Key.Start, entry.Key.Value,
                $"the joint of {joint.First} and {joint.Second} is described twice", "one description of each joint, under either of its ends");
            return;
        }

        Joint read = entry.Value is TextNode.Scalar { IsNull: false } word ? ReadShort(joint, entry, word) : ReadLong(joint, end, entry);
        _joined.Replace(end, read);
        described.Add(read);
    }

    /// <summary><c>loop.a: soldered</c>.</summary>
    private Joint ReadShort(Joint joint, TextEntry entry, TextNode.Scalar word)
    {
        MapReader map = new(context, new TextNode.Mapping([], false, word.Start, word.End), FormatKeys.Joint, entry.Key.Start);
        return joint with { Kind = map.Word(word, Words.Joint) ?? joint.Kind };
    }

    private Joint ReadLong(Joint joint, TrackEnd end, TextEntry entry)
    {
        MapReader map = new(context, entry.Value, FormatKeys.Joint, entry.Key.Start);
        bool? insulated = map.Flag("insulated");
        RailSet rails = map.Word("rails", Words.Rails(context.Control)) ?? RailSet.Both;
        if (insulated != true && map.Has("rails"))
        {
            context.Add(LayoutRules.Contradiction, map.Find("rails")!.Key.Start, "rails",
                "\"rails\" says which rails are insulated, but the joint is not", "\"insulated: true\" beside it");
        }

        RailSet seenFromFirst = joint.First == end ? rails : rails.Across(context.Control);
        return joint with
        {
            Kind = map.Word("kind", Words.Joint) ?? joint.Kind,
            Insulated = insulated == true ? seenFromFirst : RailSet.None,
            Resistance = map.Quantity("resistance", QuantityKinds.Ohms, Range.Ohms),
        };
    }
}
