using System.Globalization;
using System.Text;
using WireUp.Circuits.Network;
using WireUp.Rails;

namespace WireUp.Circuits;

/// <summary>Which loads a netlist carries.</summary>
public enum NetlistLoads
{
    /// <summary>Those of <see cref="PowerOptions.Loads"/>: the node voltages are what <see cref="PowerReport.Places"/> reports.</summary>
    Given,

    /// <summary>The spread part of the design load, half of each length of track's share at either of its ends.</summary>
    SpreadDesign,
}

/// <summary>
/// Writes a layout's circuit as a SPICE netlist: resistors, a voltage source a booster, a source a load, one operating
/// point. Nodes bear the names of their places; conductors without resistance between them are one node.
/// </summary>
/// <remarks>
/// A comment line <c>* place &lt;place&gt; &lt;node&gt;</c> says for every fed rail point and wire terminal which node it is; the
/// node is the last word of the line. Node 0 is terminal B of the first booster of each separate circuit. Points without a feed
/// are listed as <c>* unfed &lt;place&gt;</c> and take no part, for a floating node would have no voltage.
/// </remarks>
public static class SpiceNetlist
{
    /// <summary>Writes the netlist of a layout.</summary>
    /// <param name="graph">The rails; the places of loads and probes must be stations of it.</param>
    /// <param name="options">Loads, probes and the positions of turnouts.</param>
    /// <param name="loads">Which loads to include.</param>
    /// <exception cref="KeyNotFoundException">The place of a load or probe is no station of the graph.</exception>
    public static string Write(RailGraph graph, PowerOptions options, NetlistLoads loads = NetlistLoads.Given)
    {
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(graph, options.Turnouts));
        TrackSurvey survey = new(model, model.Potentials([]));
        return loads switch
        {
            NetlistLoads.Given => Write(model, (text, nodes) => AppendPorts(text, new PlacedCase(model, survey, options).Ports, model, survey.Open, nodes)),
            NetlistLoads.SpreadDesign => Write(model, new DesignCase(model, survey, DesignLoad.Of(graph.Layout), options).Loads),
            _ => throw new ArgumentOutOfRangeException(nameof(loads), loads, "not a choice of loads"),
        };
    }

    /// <summary>Writes a circuit with loads that are known already.</summary>
    internal static string Write(NodalModel model, IReadOnlyList<NodeLoad> loads) => Write(model, (text, nodes) => AppendLoads(text, loads, nodes));

    private static string Write(NodalModel model, Action<StringBuilder, SpiceNodes> appendLoads)
    {
        SpiceNodes nodes = new(model);
        StringBuilder text = new();
        text.Append("* ").Append(OneLine(model.Circuit.Graph.Layout.Name)).Append('\n');
        text.Append("* ohm, volt, ampere; every booster at its open-circuit volts behind its output resistance\n");
        AppendPlaces(text, model, nodes);
        AppendResistors(text, model, nodes);
        AppendSources(text, model, nodes);
        appendLoads(text, nodes);
        return text.Append(".op\n.end\n").ToString();
    }

    private static void AppendPlaces(StringBuilder text, NodalModel model, SpiceNodes nodes)
    {
        for (int node = 0; node < model.Circuit.NodeCount; node++)
        {
            text.Append(nodes.Of(node) is { } name
                ? $"* place {model.Circuit.NameOf(node)} {name}\n"
                : $"* unfed {model.Circuit.NameOf(node)}\n");
        }
    }

    private static void AppendResistors(StringBuilder text, NodalModel model, SpiceNodes nodes)
    {
        int number = 0;
        foreach (CircuitElement element in model.Circuit.Elements)
        {
            (string? from, string? to) = (nodes.Of(element.From), nodes.Of(element.To));
            if (element.Ohms > 0 && from is not null && to is not null && from != to)
            {
                text.Append(CultureInfo.InvariantCulture, $"R{++number} {from} {to} {element.Ohms:R}\n");
            }
        }
    }

    private static void AppendSources(StringBuilder text, NodalModel model, SpiceNodes nodes)
    {
        int number = 0;
        foreach (CircuitSource source in model.Circuit.Sources)
        {
            text.Append(CultureInfo.InvariantCulture, $"V{++number} {nodes.Of(source.Plus)} {nodes.Of(source.Minus)} DC {source.Volts:R}\n");
        }
    }

    private static void AppendLoads(StringBuilder text, IEnumerable<NodeLoad> loads, SpiceNodes nodes)
    {
        int number = 0;
        foreach (NodeLoad load in loads.Where(load => nodes.Of(load.From) != nodes.Of(load.To)))
        {
            text.Append(CultureInfo.InvariantCulture, $"I{++number} {nodes.Of(load.From)} {nodes.Of(load.To)} DC {load.Amps:R}\n");
        }
    }

    /// <summary>
    /// Loads that answer to their volts. A constant power becomes a resistance below half of the open-circuit volts, where a railway cannot
    /// settle, so that the simulator cannot end there either.
    /// </summary>
    private static void AppendPorts(StringBuilder text, IEnumerable<LoadPort> ports, NodalModel model, double[] open, SpiceNodes nodes)
    {
        int number = 0;
        foreach (LoadPort port in ports.Where(port => nodes.Of(port.High) != nodes.Of(port.Low)))
        {
            (string? high, string? low, string name) = (nodes.Of(port.High), nodes.Of(port.Low), (++number).ToString(CultureInfo.InvariantCulture));
            double half = model.VoltsBetween(port.High, port.Low, open) / 2;
            string line = port.Load.Demand switch
            {
                LoadDemand.Current current => string.Create(CultureInfo.InvariantCulture, $"I{name} {high} {low} DC {current.Amps.Amperes:R}"),
                LoadDemand.Resistance resistance => string.Create(CultureInfo.InvariantCulture, $"Rload{name} {high} {low} {resistance.Ohms.Ohms:R}"),
                LoadDemand.Power power => string.Create(CultureInfo.InvariantCulture,
                    $"Bload{name} {high} {low} I = v({high},{low}) > {half:R} ? {(double)power.Watts.Watts:R}/v({high},{low}) : v({high},{low})*{(double)power.Watts.Watts / (half * half):R}"),
                _ => throw new InvalidOperationException($"not a demand: {port.Load.Demand}"),
            };
            text.Append(line).Append('\n');
        }
    }

    private static string OneLine(string name) => name.ReplaceLineEndings(" ");
}
