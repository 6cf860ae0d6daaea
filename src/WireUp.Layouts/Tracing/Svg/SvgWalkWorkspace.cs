using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>Walks through the elements of a drawing and gathers the lines that are track, in units of the page.</summary>
internal sealed class SvgWalkWorkspace
{
    private static readonly string[] NotDrawn = ["defs", "symbol", "clipPath", "mask", "marker", "pattern", "linearGradient", "radialGradient", "filter", "style", "title", "desc", "metadata", "script"];
    private static readonly string[] Shapes = ["path", "line", "polyline", "polygon", "rect", "circle", "ellipse"];
    private static readonly string[] Groups = ["svg", "g", "a", "switch"];

    private readonly SvgNode _root;
    private readonly SvgImport _import;
    private readonly double _tolerance;
    private readonly SvgStyles _styles = new();
    private readonly Dictionary<string, SvgNode> _byId = new(StringComparer.Ordinal);
    private readonly List<(ImmutableArray<PlanPoint> Line, string? Stroke)> _lines = [];
    private readonly List<string> _layers = [];
    private readonly HashSet<string> _notes = [];
    private readonly HashSet<string> _passedOver = new(StringComparer.Ordinal);
    private int _drawn;
    private long _points;

    public SvgWalkWorkspace(SvgNode root, SvgImport import, double unitMetres) =>
        (_root, _import, _tolerance) = (root, import, import.Tolerance.Meters / unitMetres);

    /// <summary>Why the drawing is refused, or null.</summary>
    public string? Trouble { get; private set; }

    /// <summary>Whether the wanted layer was met.</summary>
    public bool FoundLayer { get; private set; }

    public ImmutableArray<string> Layers => [.. _layers.Distinct(StringComparer.Ordinal)];

    /// <summary>Every stroke in the drawing.</summary>
    public ImmutableArray<string> Strokes => [.. _lines.Select(line => line.Stroke).OfType<string>().Distinct(StringComparer.Ordinal)];

    /// <summary>The lines that are track: those of the wanted stroke; or those with a stroke; or all, where nothing in the drawing has one.</summary>
    public ImmutableArray<ImmutableArray<PlanPoint>> Lines
    {
        get
        {
            string? wanted = _import.Stroke is { } stroke ? SvgStyles.Colour(stroke) : null;
            bool anyStroke = _lines.Any(line => line.Stroke is not null);
            return [.. _lines.Where(line => wanted is not null ? line.Stroke == wanted : !anyStroke || line.Stroke is not null).Select(line => line.Line)];
        }
    }

    public IEnumerable<string> Notes()
    {
        int without = _lines.Count(line => line.Stroke is null);
        if (without > 0 && _import.Stroke is null && without < _lines.Count)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"{without} {(without == 1 ? "shape" : "shapes")} without a stroke left out");
        }

        foreach (string note in _notes.Order(StringComparer.Ordinal))
        {
            yield return note;
        }

        if (_passedOver.Count > 0)
        {
            yield return $"not lines, and left out: {string.Join(", ", _passedOver.Order(StringComparer.Ordinal).Take(12))}";
        }
    }

    public void Walk()
    {
        Index();
        Enter(_root, new(SvgMatrix.Identity, null, true, _import.Layer is null, 0));
    }

    /// <summary>What an element has from those around it.</summary>
    private readonly record struct Around(SvgMatrix Map, string? Stroke, bool IsVisible, bool IsWanted, int Depth);

    private void Index()
    {
        Stack<SvgNode> open = new([_root]);
        while (open.TryPop(out SvgNode? node))
        {
            if (node["id"] is { } id) _byId.TryAdd(id, node);
            if (node.Name == "style") _styles.Add(node.Text);
            for (int i = node.Children.Count - 1; i >= 0; i--) open.Push(node.Children[i]);
        }

        if (_styles.HasUnknown) _notes.Add("some rules of its style sheet are not understood");
        if (_styles.HasTooMany) Trouble = $"the drawing has more than {SvgLimits.StyleRules} style rules";
    }

    private void Enter(SvgNode node, Around around)
    {
        if (Trouble is not null || NotDrawn.Contains(node.Name) || node.Name.Length == 0)
        {
            return;
        }

        if (++_drawn > SvgLimits.Drawn || around.Depth > SvgLimits.Depth)
        {
            Trouble = around.Depth > SvgLimits.Depth
                ? $"the drawing has more than {SvgLimits.Depth} elements within each other, those brought in by \"use\" included"
                : $"the drawing draws more than {SvgLimits.Drawn} elements, those brought in by \"use\" included";
            return;
        }

        if (_styles.Of(node, "display") == "none" || Own(node, around) is not { } own)
        {
            return;
        }

        if (_styles.Of(node, "clip-path") is { } clip && clip != "none") _notes.Add("clipping is not looked at: lines are taken whole");
        switch (node.Name)
        {
            case "use":
                Use(node, own);
                break;
            case { } name when Groups.Contains(name):
                foreach (SvgNode child in node.Children) Enter(child, own);
                break;
            case { } name when Shapes.Contains(name):
                if (own.IsWanted && own.IsVisible) Draw(node, own);
                break;
            default:
                _passedOver.Add(node.Name);
                break;
        }
    }

    /// <summary>What an element hands on to those in it; null where it cannot be placed.</summary>
    private Around? Own(SvgNode node, Around around)
    {
        if (SvgMatrix.Parse(node["transform"]) is not { } map)
        {
            _notes.Add($"\"{Text.ProblemList.Shorten(node["transform"] ?? "")}\" is not a transform: what it moves is left out");
            return null;
        }

        if (node.Name == "svg" && around.Depth > 0)
        {
            map *= SvgMatrix.Translate(SvgLength.Parse(node["x"])?.Units ?? 0, SvgLength.Parse(node["y"])?.Units ?? 0) * Fitted(node, node);
        }

        bool isLayer = Groups.Contains(node.Name) && around.Depth > 0 && node.Names.Any();
        if (isLayer) _layers.AddRange(node.Names.Take(1));
        bool isWanted = around.IsWanted || (isLayer && node.Names.Contains(_import.Layer));
        FoundLayer |= isWanted;
        string? stroke = _styles.Of(node, "stroke") switch
        {
            null or "inherit" or "currentColor" => around.Stroke,
            "none" or "transparent" => null,
            { } colour => SvgStyles.Colour(colour),
        };
        bool isVisible = _styles.Of(node, "visibility") switch { "hidden" or "collapse" => false, "visible" => true, _ => around.IsVisible };
        return new(around.Map * map, stroke, isVisible, isWanted, around.Depth + 1);
    }

    /// <summary>What <c>use</c> points to, in the same file, moved to its place.</summary>
    private void Use(SvgNode node, Around own)
    {
        string link = node["href"] ?? "";
        if (!link.StartsWith('#') || !_byId.TryGetValue(link[1..], out SvgNode? target))
        {
            _notes.Add("\"use\" of something that is not in the file is left out");
            return;
        }

        Around moved = own with { Map = own.Map * SvgMatrix.Translate(SvgLength.Parse(node["x"])?.Units ?? 0, SvgLength.Parse(node["y"])?.Units ?? 0) };
        if (target.Name != "symbol")
        {
            Enter(target, moved);
            return;
        }

        moved = moved with { Map = moved.Map * Fitted(target, node), Depth = moved.Depth + 1 };
        if (moved.Depth > SvgLimits.Depth)
        {
            Trouble = $"the drawing has more than {SvgLimits.Depth} elements within each other, those brought in by \"use\" included";
        }

        foreach (SvgNode child in target.Children) Enter(child, moved);
    }

    /// <summary>A view box fitted into a width and height, whole and in the middle, as where nothing else is said.</summary>
    private static SvgMatrix Fitted(SvgNode boxed, SvgNode sized)
    {
        ImmutableArray<double> box = new SvgNumbers(boxed["viewBox"] ?? "").All();
        double? width = SvgLength.Parse(sized["width"])?.Units, height = SvgLength.Parse(sized["height"])?.Units;
        if (box.Length != 4 || box[2] <= 0 || box[3] <= 0)
        {
            return SvgMatrix.Identity;
        }

        (double wide, double high) = (width ?? box[2], height ?? box[3]);
        double scale = Math.Min(wide / box[2], high / box[3]);
        return SvgMatrix.Translate((wide - (scale * box[2])) / 2, (high - (scale * box[3])) / 2) * SvgMatrix.Scale(scale, scale) * SvgMatrix.Translate(-box[0], -box[1]);
    }

    private void Draw(SvgNode node, Around own)
    {
        double stretch = own.Map.Stretch;
        (ImmutableArray<ImmutableArray<PlanPoint>> lines, bool isWhole) = SvgShapes.Lines(node, _tolerance / Math.Max(stretch, 1e-12));
        if (!isWhole) _notes.Add($"the data of a \"{node.Name}\" can be read only in part");
        foreach (ImmutableArray<PlanPoint> line in lines)
        {
            _points += line.Length;
            if (_points > LineTracing.MostPoints || _lines.Count >= LineTracing.MostLines)
            {
                Trouble = _points > LineTracing.MostPoints ? $"the lines have more than {LineTracing.MostPoints} points" : $"there are more than {LineTracing.MostLines} lines";
                return;
            }

            ImmutableArray<PlanPoint> moved = [.. line.Select(own.Map.Apply)];
            if (moved.All(point => double.IsFinite(point.X) && double.IsFinite(point.Y))) _lines.Add((moved, own.Stroke));
        }
    }
}
