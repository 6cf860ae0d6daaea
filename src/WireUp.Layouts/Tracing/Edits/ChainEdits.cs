using System.Collections.Immutable;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>Writes the chains of <c>joined</c> anew where a change of the track touches them.</summary>
internal sealed class ChainEdits(Layout before, TrackChange change)
{
    private readonly LayoutIndex _index = new(before);
    private readonly HashSet<(TrackEnd, TrackEnd)> _written = [];

    /// <summary>New joints that no chain has taken in yet, as chains of their own.</summary>
    public ImmutableArray<string> Rest() => Write([.. change.Joined.Where(joint => !_written.Contains(joint))]);

    /// <summary>The chains that one chain becomes, none where nothing of it is left; null where it stays as it is.</summary>
    public ImmutableArray<string>? Of(TextNode.Scalar chain)
    {
        ImmutableArray<(TrackEnd First, TrackEnd Second)> old = Joints(ChainText.Split(chain));
        List<(TrackEnd First, TrackEnd Second)> now = [];
        foreach ((TrackEnd first, TrackEnd second) in old)
        {
            AddNew(now, first);
            if (!change.Parted.Contains(first) && !change.Parted.Contains(second) && change.EndOf(first) is { } from && change.EndOf(second) is { } to)
            {
                now.Add((from, to));
            }
        }

        return now.SequenceEqual(old) ? null : Write([.. now]);
    }

    /// <summary>Where a chain goes on behind a cut, what is put into the cut comes first.</summary>
    private void AddNew(List<(TrackEnd First, TrackEnd Second)> now, TrackEnd end)
    {
        if (!change.MovedEnds.TryGetValue(end, out TrackEnd moved) || moved.Name != end.Name)
        {
            return;
        }

        HashSet<PieceId> parts = [.. change.PartsOf(end.Piece)];
        HashSet<PieceId> fresh = [.. change.Added.Select(added => added.Name).Except(change.AddedSections)];
        foreach ((TrackEnd First, TrackEnd Second) joint in change.Joined.Where(joint =>
            (parts.Contains(joint.First.Piece) && (fresh.Contains(joint.Second.Piece) || parts.Contains(joint.Second.Piece)))
            || (fresh.Contains(joint.First.Piece) && parts.Contains(joint.Second.Piece))))
        {
            if (_written.Add(joint))
            {
                now.Add(joint);
            }
        }
    }

    private ImmutableArray<(TrackEnd First, TrackEnd Second)> Joints(ImmutableArray<ChainPart> parts) =>
        [.. parts.Skip(1).Select((part, i) => (End(parts[i].Text, leaving: true), End(part.Text, leaving: false)))];

    private TrackEnd End(string text, bool leaving)
    {
        int dot = text.IndexOf('.', StringComparison.Ordinal);
        return dot >= 0 ? new(new(text[..dot]), text[(dot + 1)..])
            : new(new(text), leaving && _index.Piece(new(text)) is Piece.Section ? "b" : "a");
    }

    private ImmutableArray<string> Write(ImmutableArray<(TrackEnd First, TrackEnd Second)> joints)
    {
        List<List<string>> chains = [];
        TrackEnd? last = null;
        foreach ((TrackEnd first, TrackEnd second) in joints)
        {
            if (last is not { Name: "a" } || first != last.Value with { Name = "b" } || !IsSection(first.Piece))
            {
                chains.Add([Tip(first, "b")]);
            }

            chains[^1].Add(Tip(second, "a"));
            last = second;
        }

        return [.. chains.Select(chain => string.Join(" > ", chain))];
    }

    private string Tip(TrackEnd end, string usual) => end.Name == usual && IsSection(end.Piece) ? end.Piece.Name
        : IsStop(end.Piece) ? end.Piece.Name
        : end.ToString();

    private bool IsSection(PieceId piece) => change.AddedSections.Contains(piece) || OldOf(piece) is Piece.Section;

    private bool IsStop(PieceId piece) => OldOf(piece) is Piece.Stop;

    private Piece? OldOf(PieceId piece) =>
        _index.FindPiece(change.Renamed.FirstOrDefault(pair => pair.Value == piece) is { Key.Name: not null } renamed ? renamed.Key : piece);
}
