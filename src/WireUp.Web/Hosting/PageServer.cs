using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Server;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using WireUp.Web.Components;
using WireUp.Web.Desk;
using WireUp.Web.Drafting;

namespace WireUp.Web.Hosting;

/// <summary>Puts the page on the loopback address of this machine; with a door, on its local network too.</summary>
public static class PageServer
{
    /// <summary>The server, ready to start.</summary>
    /// <param name="options">What it serves, and on which port.</param>
    /// <param name="applicationName">The name of the program's assembly, beside which its static files are found.</param>
    /// <param name="contentRoot">The folder of the program.</param>
    public static WebApplication Build(PageOptions options, string applicationName, string contentRoot)
    {
        WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            ApplicationName = applicationName,
            ContentRootPath = contentRoot,
            EnvironmentName = Environments.Production,
        });
        builder.WebHost.UseStaticWebAssets();

        // No file or variable of the surroundings opens another door.
        builder.Configuration.Sources.Clear();
        builder.Logging.ClearProviders();
        builder.Logging.AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace).SetMinimumLevel(LogLevel.Warning)
            .AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error) // its keys are meant to end with the program
            .AddFilter("Microsoft.Extensions.Hosting", LogLevel.None); // a start that fails is said by whoever asked for it
        builder.WebHost.ConfigureKestrel(kestrel => Limit(kestrel, options));
        AddServices(builder.Services, options);
        WebApplication page = builder.Build();
        page.UseMiddleware<Gate>();
        if (options.TellAtDoor is { } tell)
        {
            JoinDoor door = new(tell);
            page.Lifetime.ApplicationStarted.Register(door.Open);
            page.UseMiddleware<JoinGate>(door);
        }

        page.UseExceptionHandler(failed => failed.Run(context => context.Response.WriteAsync(
            "Something went wrong; its cause stands in the window of 'wireup serve'. What was reported as saved is saved.", context.RequestAborted)));
        page.UseWhen(IsForm, form => form.UseStatusCodePages("text/plain", "This was refused ({0}): it is too large, or the page it came from is no longer current."));
        page.UseWhen(context => !IsForm(context), other => other.UseStatusCodePagesWithReExecute("/problem"));
        page.UseAntiforgery();
        page.MapStaticAssets();
        HandInEndpoints.Map(page);
        PictureEndpoint.Map(page);
        BookEndpoint.Map(page);
        page.MapRazorComponents<App>().AddInteractiveServerRenderMode(server => server.ContentSecurityFrameAncestorsPolicy = null);
        return page;
    }

    private static bool IsForm(HttpContext context) => HttpMethods.IsPost(context.Request.Method);

    private static void Limit(KestrelServerOptions kestrel, PageOptions options)
    {
        kestrel.Listen(options.TellAtDoor is null ? IPAddress.Loopback : IPAddress.Any, options.Port);
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestBodySize = PageLimits.RequestBytes;
        kestrel.Limits.MaxConcurrentConnections = PageLimits.Connections;
        kestrel.Limits.MaxConcurrentUpgradedConnections = PageLimits.Connections;
        kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
    }

    private static void AddServices(IServiceCollection services, PageOptions options)
    {
        services.AddSingleton(options);
        services.AddSingleton(options.Folder);
        services.AddSingleton<SharedWork>();
        services.AddSingleton<LayoutDesk>();
        services.AddSingleton<WorkSheetDesk>();
        services.AddSingleton<FaultDesk>();
        services.AddSingleton<DrawingDesk>();
        services.AddSingleton<PictureDesk>();
        services.AddRazorComponents().AddInteractiveServerComponents(Limit)
            .AddHubOptions(hub => hub.MaximumReceiveMessageSize = PageLimits.RequestBytes);
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddAntiforgery(antiforgery =>
        {
            antiforgery.Cookie.Name = "wireup-form";
            antiforgery.Cookie.SameSite = SameSiteMode.Strict;
        });
        services.Configure<FormOptions>(form => form.MultipartBodyLengthLimit = PageLimits.LayoutBytes);
    }

    private static void Limit(CircuitOptions circuit)
    {
        circuit.DetailedErrors = false;
        circuit.DisconnectedCircuitMaxRetained = PageLimits.KeptPages;
        circuit.DisconnectedCircuitRetentionPeriod = TimeSpan.FromMinutes(5);
    }
}
