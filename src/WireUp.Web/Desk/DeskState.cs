using System.Collections.Immutable;
using WireUp.Documents;
using WireUp.Layouts;
using WireUp.Rails;
using WireUp.Web.Folders;

namespace WireUp.Web.Desk;

/// <summary>A sign that a view puts on the plan.</summary>
/// <param name="Id">Its id on the page.</param>
/// <param name="Place">Where, in the words of the layout file.</param>
/// <param name="Text">At most a few characters.</param>
/// <param name="Kind">How it looks: a class of the style sheet.</param>
/// <param name="Title">What it is, for a pointer that rests on it.</param>
internal sealed record PlanPin(string Id, string Place, string Text, string Kind, string Title);

/// <summary>What one browser looks at: shared by the plan and the view beside it.</summary>
internal sealed class DeskState(LayoutName name)
{
    private RailGraph? _graph;
    private readonly HashSet<string> _own = new(StringComparer.Ordinal);
    private OpenLayout? _open;

    /// <summary>Something below was changed: draw it anew.</summary>
    public event Action? Changed;

    public LayoutName Name => name;

    public OpenLayout? Open
    {
        get => _open;
        set
        {
            (_open, _graph) = (value, null);
            Positions = Positions.RemoveRange(Positions.Where(pair => !PositionsOf(pair.Key).Contains(pair.Value)).Select(pair => pair.Key));
        }
    }

    /// <summary>What has been thrown; everything else stands in its first position.</summary>
    public ImmutableSortedDictionary<PieceId, string> Positions { get; private set; } = ImmutableSortedDictionary<PieceId, string>.Empty;

    public PlanLook Look { get; set; }

    /// <summary>What was measured and seen, kept for as long as the view is open, also when the layout changes meanwhile.</summary>
    public ReadingSet Readings { get; set; } = ReadingSet.None;

    /// <summary>The path that is lit.</summary>
    public ImmutableArray<string> Path { get; set; } = [];

    public ImmutableArray<PlanPin> Marks { get; set; } = [];

    /// <summary>A place to bring into the middle of the plan once.</summary>
    public string? GoTo { get; set; }

    /// <summary>Takes a touch of the plan before turnouts do; says whether it did.</summary>
    public Func<TrackPlace?, bool>? OnTouch { get; set; }

    /// <summary>Takes a touch of a sign.</summary>
    public Action<string>? OnMark { get; set; }

    /// <summary>Takes a sign that is dragged to a place; done when it is answered.</summary>
    public Func<string, TrackPlace?, Task>? OnDrop { get; set; }

    /// <summary>Everything that moves, in the order of the layout.</summary>
    public IEnumerable<(PieceId Owner, ImmutableArray<string> Positions)> Movers => Graph is not { } graph ? [] :
    [
        .. graph.Layout.Track.Select(piece => piece.Id).Concat(graph.Layout.Wiring.Switches.Select(hand => hand.Name))
            .Select(owner => (owner, graph.PositionsOf(owner))).Where(pair => pair.Item2.Length > 1),
    ];

    private RailGraph? Graph => _graph ??= Open?.Layout is { } layout ? RailGraph.Build(layout) : null;

    public ImmutableArray<string> PositionsOf(PieceId owner) => Graph is { } graph && (graph.Index.FindPiece(owner) is not null
        || graph.Layout.Wiring.Switches.Any(hand => hand.Name == owner)) ? graph.PositionsOf(owner) : [];

    public string PositionOf(PieceId owner) => Positions.TryGetValue(owner, out string? position) ? position : PositionsOf(owner).FirstOrDefault("");

    /// <summary>Puts a turnout in a position; one that it does not have changes nothing.</summary>
    public void Throw(PieceId owner, string position)
    {
        int at = PositionsOf(owner).IndexOf(position);
        if (at < 0) return;
        Positions = at == 0 ? Positions.Remove(owner) : Positions.SetItem(owner, position);
    }

    /// <summary>Puts all turnouts as a reading says they stood.</summary>
    public void ThrowAs(MeterReading reading)
    {
        ThrowBack();
        foreach (Setting setting in reading.Settings) Throw(setting.Owner, setting.Position);
        Notify();
    }

    /// <summary>Puts a turnout in its next position.</summary>
    public void ThrowNext(PieceId owner)
    {
        ImmutableArray<string> positions = PositionsOf(owner);
        if (positions.Length > 1) Throw(owner, positions[(positions.IndexOf(PositionOf(owner)) + 1) % positions.Length]);
    }

    public void ThrowBack() => Positions = ImmutableSortedDictionary<PieceId, string>.Empty;

    /// <summary>A view begins: nothing of the one before stays on the plan.</summary>
    public void Clear()
    {
        (Path, Marks, GoTo, OnTouch, OnMark, OnDrop) = ([], [], null, null, null, null);
        Look = new(Look.From, null, false);
    }

    /// <summary>Remembers that this page saved a version itself.</summary>
    public void MarkOwn(string version) => _own.Add(version);

    /// <summary>Whether this page saved a version itself.</summary>
    public bool IsOwn(string version) => _own.Contains(version);

    public void Notify() => Changed?.Invoke();

    /// <summary>What of the state stands in the address: <c>?set=T1.diverging&amp;from=below</c>.</summary>
    public string Query
    {
        get
        {
            IEnumerable<string> parts =
            [
                .. Positions.IsEmpty ? [] : new[] { "set=" + Uri.EscapeDataString(string.Join(',', Positions.Select(pair => $"{pair.Key}.{pair.Value}"))) },
                .. Look.From == DrawingView.Below ? new[] { "from=below" } : [],
            ];
            string query = string.Join('&', parts);
            return query.Length == 0 ? "" : "?" + query;
        }
    }

    /// <summary>Takes the state from an address; what does not fit the layout is passed over.</summary>
    public void Read(string query)
    {
        Dictionary<string, Microsoft.Extensions.Primitives.StringValues> parts = Microsoft.AspNetCore.WebUtilities.QueryHelpers.ParseQuery(query);
        Look = Look with { From = parts.GetValueOrDefault("from") == "below" ? DrawingView.Below : DrawingView.Above };
        foreach (string setting in parts.GetValueOrDefault("set").ToString().Split(',', StringSplitOptions.RemoveEmptyEntries))
        {
            int dot = setting.LastIndexOf('.');
            if (dot > 0) Throw(new(setting[..dot]), setting[(dot + 1)..]);
        }
    }
}
